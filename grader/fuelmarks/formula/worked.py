"""A worked answer: a formula step by step, in the learner's own numbers and the units shown.

Where a step's numbers cannot be put in as they stand, because their units mix, each is turned
into SI first, on a line of its own: "12 inH2O = 2989 Pa".
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from fuelcircuits.quantities.trade_units import labelled, scale
from markupsafe import Markup

from fuelmarks.formula.functions import CONSTANTS, Table
from fuelmarks.formula.kinds import PLAIN, Kind, kind_of_unit
from fuelmarks.formula.tree import Formula, Node, Step, names_in
from fuelmarks.formula.value import node_working, steps_of
from fuelmarks.formula.writing import MINUS, as_mathml, as_text, raised

__all__ = ["Conversion", "Line", "worked_lines"]

FIGURES = 4
MOST_FIGURES = 5
"""Figures of a number that ends there, such as 2909.6 or 297.15."""
SI_UNITS = (
    *("m", "m^2", "m^3", "kg", "s", "K", "N", "Pa", "kg/m^3", "kg/s", "m/s", "N/m"),
    *("N*m", "W", "kg/J"),
)
SHOP_UNITS = (
    *("mm", "mm^2", "ml", "g", "s", "K", "N", "kPa", "kg/m^3", "g/s", "m/s", "N/mm"),
    "kW",
)
"""Units in which a step is written that has the kind of no given and not that of the answer."""


@dataclass(frozen=True)
class Conversion:
    """A number turned into SI before it is used."""

    shown: str
    turned: str


@dataclass(frozen=True)
class Line:
    """One step with its numbers: in words, what is calculated, and what it comes to."""

    words: str
    conversions: tuple[Conversion, ...]
    text: str
    mathml: Markup
    result: str


def worked_lines(
    formula: Formula,
    values: Mapping[str, float],
    units: Mapping[str, str],
    kinds: Mapping[str, Kind],
    unit: str,
    *,
    tables: Mapping[str, Table] | None = None,
) -> list[Line]:
    """Return the worked answer, one line a step.

    Parameters
    ----------
    formula
        The formula.
    values
        The learner's value (SI) of every name it needs, constants aside.
    units
        The unit in which each of these is shown.
    kinds
        The kind of every step, as `kinds.prove` returns them.
    unit
        The unit the question asks for.
    tables
        The tables the formula reads.
    """
    made = steps_of(formula, values, tables)
    constants = {name: each.unit for name, each in CONSTANTS.items()}
    known = {name: each.value for name, each in CONSTANTS.items()} | dict(values) | made
    shown = constants | dict(units) | dict(_step_units(formula, kinds, units, unit))
    writer = _Writer(known, shown, tables or {})
    return [writer.line(step) for step in formula.steps]


def _step_units(
    formula: Formula, kinds: Mapping[str, Kind], units: Mapping[str, str], unit: str
) -> Iterator[tuple[str, str]]:
    """Yield the unit in which each step is written: the answer's, a used given's, or the shop's."""
    used = [units[name] for name in reversed(formula.needs) if name in units]
    by_kind = {kind_of_unit(each): each for each in (*SI_UNITS, *SHOP_UNITS)}
    by_kind |= {kind_of_unit(each): each for each in used if not _degrees(each)}
    by_kind |= {kind_of_unit(unit): unit, PLAIN: ""}
    for step in formula.steps[:-1]:
        yield step.name, by_kind.get(kinds[step.name], _coherent(kinds[step.name]))
    yield formula.steps[-1].name, unit


def _degrees(unit: str) -> bool:
    """Return whether `unit` is a point on a temperature scale."""
    return unit not in ("", "1") and scale(unit).degrees


def _coherent(kind: Kind) -> str:
    """Return the SI unit of a kind, spelt out in base units."""
    bases = zip(("m", "kg", "s", "K"), kind, strict=True)
    return "*".join(f"{base}^{float(power):g}" for base, power in bases if power)


class _Writer:
    """Writes steps in the numbers of one learner."""

    def __init__(
        self, known: Mapping[str, float], units: Mapping[str, str], tables: Mapping[str, Table]
    ) -> None:
        self.known, self.units, self.tables = known, units, tables

    def line(self, step: Step) -> Line:
        """Return one step with its numbers."""
        plain = self._fits_as_shown(step)
        show = self._as_shown if plain else self._in_si
        return Line(
            words=step.words,
            conversions=() if plain else tuple(self._conversions(step.node)),
            text=as_text(step.node, show),
            mathml=as_mathml(step.node, show),
            result=self._as_shown(step.name) if plain else self._turned_back(step.name),
        )

    def _as_shown(self, name: str) -> str:
        """Return a name's number in the unit in which it is shown."""
        if name == "pi":
            return "π"
        return _labelled(self._number(name), self.units[name])

    def _in_si(self, name: str) -> str:
        """Return a name's number in SI."""
        return "π" if name == "pi" else _labelled(self.known[name], self._si_unit(name))

    def _turned_back(self, name: str) -> str:
        """Return a result in SI and, where that differs, as it is shown."""
        return " = ".join(dict.fromkeys((self._in_si(name), self._as_shown(name))))

    def _number(self, name: str) -> float:
        """Return a name's number in its unit."""
        unit = self.units[name]
        if unit in ("", "1"):
            return self.known[name]
        way = scale(unit)
        return (self.known[name] - way.offset) / way.factor

    def _si_unit(self, name: str) -> str:
        unit = self.units[name]
        kind = kind_of_unit(unit)
        if kind == PLAIN:
            return ""
        named = {kind_of_unit(each): each for each in SI_UNITS}
        return named.get(kind, unit if scale(unit).factor == 1 else _coherent(kind))

    def _fits_as_shown(self, step: Step) -> bool:
        """Return whether the shown numbers, put in as they stand, give the shown result."""
        numbers = {name: self._put_in(name) for name in names_in(step.node)}
        try:
            result = node_working(step.node, self.tables)(numbers)
        except (ArithmeticError, ValueError):
            return False
        return math.isclose(result, self._put_in(step.name), rel_tol=1e-6)

    def _put_in(self, name: str) -> float:
        """Return the number that a name puts in as shown; 31° and 13 % are plain numbers."""
        plain = kind_of_unit(self.units[name]) == PLAIN
        return self.known[name] if plain else self._number(name)

    def _conversions(self, node: Node) -> Iterator[Conversion]:
        """Yield each number of a step that is not shown in SI yet."""
        for name in dict.fromkeys(names_in(node)):
            shown, turned = self._as_shown(name), self._in_si(name)
            if shown != turned:
                yield Conversion(shown, turned)


def _labelled(number: float, unit: str) -> str:
    """Return a number with its unit."""
    return labelled(_figures(number), unit)


def _figures(number: float) -> str:
    """Return a number as one writes it: rounded, and with a power of ten only where it must be."""
    ends = math.isclose(number, float(f"{number:.{MOST_FIGURES}g}"), rel_tol=1e-12)
    figures = MOST_FIGURES if ends else FIGURES
    if number and not 1e-4 <= abs(number) < 1e6:
        mantissa, _, power = f"{number:.{figures - 1}e}".partition("e")
        return f"{float(mantissa):g}·10{raised(int(power))}".replace("-", MINUS)
    return f"{float(f'{number:.{figures}g}'):.10g}".replace("-", MINUS)
