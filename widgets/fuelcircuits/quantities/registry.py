"""The registry of units and its quantities, which speak and print as people in the trade do.

Every unit that is given as a text, be it in ``Q(44, "kpa")`` or in ``.to("mm2")``, is read by
our own grammar. What cannot be done with two quantities is refused in one sentence.
"""

import re
import traceback
from collections.abc import Callable
from functools import wraps
from typing import Any, TypeAlias

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.spellings import trade_powers
from fuelcircuits.quantities.unit_label import unit_label
from fuelcircuits.quantities.without import without

with without("dask"):  # takes as long as Pint itself, for arrays that nobody has here
    import pint

__all__ = ["PintError", "Quantity", "QuantityError", "registry", "short_number"]

PintError = pint.PintError

PINT_SPEC = re.compile(r"[~DPLHC]")
"""What tells Pint's own ways to format a quantity from Python's ways to format a number."""
OPERATIONS = (
    *("add", "radd", "iadd", "sub", "rsub", "isub", "mul", "rmul", "imul", "matmul"),
    *("truediv", "rtruediv", "itruediv", "floordiv", "rfloordiv", "mod", "rmod", "divmod"),
    *(
        "pow",
        "rpow",
        "ipow",
        "lt",
        "le",
        "gt",
        "ge",
        "float",
        "int",
        "round",
        "bool",
        "getattr",
        "getitem",
    ),
    *("array_ufunc", "array_function", "getattr", "getitem", "iter", "len", "format"),
)
PLAIN_ERRORS = (ArithmeticError, AttributeError, LookupError, TypeError, ValueError)
CONVERSIONS = ("compare", "ito", "to", "to_base_units", "to_root_units")
OFFSET = (
    'temperatures must be in K, or differences such as Q(5, "delta_degC"), '
    "to be added or multiplied, got °C or °F"
)
DIFFERENCES = {"delta_degree_Celsius": "C", "delta_degree_Fahrenheit": "F"}
NAME = re.compile(r"[^\W\d]\w{0,39}|°[CF]")


class QuantityError(UnitError):
    """What cannot be a quantity, or cannot be done with one; a notebook shows one sentence."""

    def _render_traceback_(self) -> list[str]:
        """Return what a notebook shows: the line of the cell, and what is wrong with it."""
        frames = traceback.extract_tb(self.__traceback__)
        lines = [one for one in frames if "ipykernel" in one.filename or "ipython-" in one.filename]
        where = [f"line {one.lineno}: {one.line}" for one in lines[-1:]]
        return [*where, f"{type(self).__name__}: {self}"]


class Quantity(pint.registry.Quantity[Any]):
    """A number or an array with a unit."""

    def __str__(self) -> str:
        """Return the quantity as one writes it: ``12.6 mm²``."""
        return format(self, "")

    def __format__(self, spec: str) -> str:
        """Return the quantity with its number as `spec` says: ``f"{area:.1f}"``."""
        if PINT_SPEC.search(spec):
            return super().__format__(spec)
        number = format(self._magnitude, spec) if spec else short_number(self._magnitude)
        label = unit_label(self.units)
        note = " (difference)" if self._scale else ""
        return f"{number}{'' if label == '°' else ' '}{label}{note}".strip()

    def __repr__(self) -> str:
        """Return the quantity as code: ``Q(12.57, "mm²")``."""
        scale = self._scale
        label = f"delta_deg{scale}" if scale else unit_label(self.units)
        return f'Q({_plain(self._magnitude)!r}, "{label}")'

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        """Show in a notebook what `str` gives."""
        printer.text(str(self))

    _repr_html_ = _repr_latex_ = None  # type: ignore[assignment]
    """A notebook shows the plain text."""

    @property
    def _scale(self) -> str:
        """Return C or F for a difference of temperatures, else nothing."""
        return DIFFERENCES.get(str(self.units), "")


class Registry(pint.UnitRegistry[Any]):
    """Pint's registry, with the trade's grammar for every unit that is given as a text."""

    Quantity: TypeAlias = Quantity

    def parse_units_as_container(self, input_string: str, *_: Any, **__: Any) -> Any:
        """Return the unit `input_string` as names and powers; raise `QuantityError`."""
        try:
            return self.UnitsContainer(trade_powers(input_string, self.full_name))
        except UnitError as error:
            raise QuantityError(str(error)) from None

    def full_name(self, name: str) -> str | None:
        """Return the full name of the unit `name`, or None if there is none."""
        if not NAME.fullmatch(name):
            return None
        try:
            return str(self.get_name(name)) or None
        except pint.PintError:
            return None


def short_number(number: Any) -> str:
    """Return a number in six figures, as one writes it; anything else as it prints."""
    plain = _plain(number)
    if isinstance(plain, int | float):
        return f"{float(f'{plain:.6g}'):.12g}"
    return str(plain)


def _plain(number: Any) -> Any:
    """Return a number of NumPy's as one of Python's own, anything else as it is."""
    return number.item() if getattr(number, "ndim", None) == 0 else number


def _in_words(operation: Callable[..., Any]) -> Callable[..., Any]:
    """Return `operation` of a quantity such that no error shows the library's inside."""

    @wraps(operation)
    def spoken(*values: Any, **named: Any) -> Any:
        try:
            return operation(*values, **named)
        except QuantityError:
            raise
        except pint.PintError as error:
            raise QuantityError(_sentence(error)) from None
        except PLAIN_ERRORS as error:
            raise _spoken(type(error))(str(error)) from None

    return spoken


def _spoken(kind: type[Exception]) -> type[QuantityError]:
    """Return the error of a quantity that is also of another `kind`, with the name of that."""
    return type(kind.__name__, (QuantityError, kind), {})


def _sentence(error: pint.PintError) -> str:
    """Return what a quantity cannot do: name, rule, value."""
    if isinstance(error, pint.DimensionalityError):
        one, other = (_labelled(units) for units in (error.units1, error.units2))
        rule = "quantities must be of one kind to be added, compared or converted"
        return f"{rule}, got {one} and {other}"
    if isinstance(error, pint.OffsetUnitCalculusError):
        return OFFSET
    return str(error).splitlines()[0]


def _labelled(units: Any) -> str:
    """Return the label of units in an error, however the library gives them."""
    try:
        return unit_label(registry.Unit(units)) or "a plain number"
    except (pint.PintError, UnitError, TypeError, ValueError):
        return str(units)


for _name in (*(f"__{name}__" for name in OPERATIONS), *CONVERSIONS):
    setattr(Quantity, _name, _in_words(getattr(Quantity, _name)))

registry = Registry(autoconvert_offset_to_baseunit=True)
registry.define("cubic_foot_per_minute = foot ** 3 / minute = cfm")
pint.set_application_registry(registry)  # type: ignore[no-untyped-call]
