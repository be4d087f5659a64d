"""What a trainee makes with `Q`: as kind as the reader of texts, and never a library's inside."""

import math
import operator
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.registry import QuantityError
from fuelcircuits.quantities.trade_units import scale
from fuelcircuits.quantities.units import Q
from hypothesis import given
from hypothesis import strategies as st
from IPython.core.interactiveshell import InteractiveShell
from traitlets.config import Config

KIND = [
    (lambda: Q("2,1 mm"), "2.1 mm"),
    (lambda: Q("2,1", "mm"), "2.1 mm"),
    (lambda: Q("1-1/4 in"), "1.25 in"),
    (lambda: Q(44, "kpa"), "44 kPa"),
    (lambda: Q(44, 5, "kPa"), "44.5 kPa"),
    (lambda: Q(44, 0, "kPa"), "44 kPa"),
    (lambda: Q(3, "mm2"), "3 mm²"),
    (lambda: Q(18, "inhg"), "18 inHg"),
    (lambda: Q("26e-6 / K"), "2.6e-05 1/K"),
    (lambda: Q(1, "inch").to("MM"), "25.4 mm"),
    (lambda: Q("0.9 lbf", "N"), "4.0034 N"),
    (lambda: Q(20, "degC"), "20 °C"),
    (lambda: Q(5, "delta_degC"), "5 °C (difference)"),
    (lambda: Q(30, "deg"), "30°"),
    (lambda: Q(0.8), "0.8"),
    (lambda: Q(101324.96, "Pa"), "101325 Pa"),
    (lambda: Q(1, "kg") / Q(2, "m") ** 3, "0.125 kg/m³"),
    (lambda: Q(np.float64(2.5), "kPa"), "2.5 kPa"),
    (lambda: Q([1.0, 2.0], "mm"), "[1. 2.] mm"),
]
REFUSED = [
    (lambda: Q(44, "kpaa"), "must be one the course knows, got 'kpaa'; write kPa"),
    (lambda: Q(44, "mpa"), "got 'mpa'; write MPa or mPa"),
    (lambda: Q(44, "furbles"), "must be one the course knows, got 'furbles'$"),
    (lambda: Q(1, "mdegC"), "got 'mdegC'; write degC"),
    (lambda: Q(1, 234, "Pa"), "without a comma: 1.234 or 1234, got 1,234"),
    (lambda: Q("1,234 Pa"), "1.234 or 1234, written without a comma, got '1,234 Pa'"),
    (lambda: Q("5 psig"), "must not say gauge, got '5 psig'"),
    (lambda: Q(44, 0.5, "kPa"), "got 3 values"),
    (lambda: Q("lbf", 0.9), "must be like .*, got Q.'lbf', 0.9"),
    (lambda: Q(None, "N"), "got Q.None, 'N'"),
    (lambda: Q("lots"), "must begin with a number, got 'lots'"),
    (
        lambda: Q(1, "N") + Q(1, "mm"),
        "of one kind to be added, compared or converted, got N and mm",
    ),
    (lambda: Q(1, "N") < Q(1, "mm"), "of one kind"),
    (lambda: Q(1, "N").to("kPa"), "of one kind .* got N and kPa"),
    (lambda: Q(1, "N").m_as("nonsense"), "course knows, got 'nonsense'"),
    (lambda: Q(1, "N") + 1, "got N and a plain number"),
    (lambda: math.sqrt(Q(4, "N")), "got N and a plain number"),
    (lambda: np.exp(Q(1, "m")), "got m and a plain number"),
    (lambda: Q(20, "degC") + Q(3, "degC"), "must be in K, or differences"),
]
OTHER_ERRORS = [
    (lambda: Q(1, "N") / Q(0, "m"), ZeroDivisionError),
    (lambda: Q(1, "N").furble, AttributeError),
    (lambda: Q(1, "N")[3], TypeError),
    (lambda: len(Q(1, "N")), TypeError),
]
UNITS = ["mm", "mm^2", "kg/m^3", "psi", "inHg", "degC", "delta_degF", "percent", "1/min", "", "deg"]


@pytest.mark.parametrize(("made", "shown"), KIND)
def test_a_quantity_is_read_kindly_and_prints_as_a_person_writes_it(
    made: Callable[[], Any], shown: str
) -> None:
    assert str(made()) == shown


@pytest.mark.parametrize(("made", "message"), REFUSED)
def test_what_is_no_quantity_is_refused_in_words(made: Callable[[], Any], message: str) -> None:
    with pytest.raises(UnitError, match=message):
        made()


@pytest.mark.parametrize(("made", "kind"), OTHER_ERRORS)
def test_an_error_of_python_keeps_its_kind_and_loses_the_inside(
    made: Callable[[], Any], kind: type[Exception]
) -> None:
    with pytest.raises(kind) as caught:
        made()
    assert isinstance(caught.value, QuantityError)


def test_a_format_is_one_for_the_number() -> None:
    assert [f"{Q(12.566, 'mm^2'):{spec}}" for spec in (".1f", "", "~P")] == [
        "12.6 mm²",
        "12.566 mm²",
        "12.566 mm²",
    ]


@given(st.floats(-1e9, 1e9), st.sampled_from(UNITS))
def test_a_quantity_is_written_as_code_that_makes_it_again(number: float, unit: str) -> None:
    made = Q(number, unit)
    again = eval(repr(made), {"Q": Q})
    assert (again.magnitude, again.units) == (made.magnitude, made.units)


@given(st.text(max_size=60), st.text(max_size=30))
def test_no_text_raises_anything_but_a_unit_error(text: str, unit: str) -> None:
    for values in ((text,), (text, unit), (1.0, unit)):
        try:
            str(Q(*values))
        except QuantityError:
            continue


@given(
    st.sampled_from(["", "m", "k", "milli", "mega"]),
    st.sampled_from(["degC", "degF", "degRe", "dB", "dBm", "g_e", "pH", "Np", "K", "psi"]),
    st.sampled_from(["", "^2", "^-0.5", "/s", "*N"]),
)
def test_every_prefix_before_every_strange_unit_is_read_or_refused(
    prefix: str, unit: str, more: str
) -> None:
    try:
        way = scale(f"{prefix}{unit}{more}")
    except UnitError:
        return
    assert math.isfinite(way.factor)


NUMBERS = st.sampled_from([Q(2, "N"), Q(3, "mm"), Q(20, "degC"), Q(0, ""), Q(0, "m"), 2, 0, "x"])
OPERATIONS = st.sampled_from(
    [operator.add, operator.sub, operator.mul, operator.truediv, operator.pow, operator.lt]
)


@given(NUMBERS, NUMBERS, OPERATIONS)
def test_two_values_give_a_third_or_an_error_without_the_library(
    one: Any, other: Any, operation: Callable[[Any, Any], Any]
) -> None:
    try:
        str(operation(one, other))
    except QuantityError:
        return
    except (TypeError, ArithmeticError):
        assert not any(hasattr(value, "magnitude") for value in (one, other)) or "x" in (one, other)


def test_a_notebook_shows_the_line_and_one_sentence(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    config = Config({"HistoryManager": {"enabled": False}})
    shell = InteractiveShell(config=config, ipython_dir=str(tmp_path))  # type: ignore[no-untyped-call]
    shell.run_cell('from fuelcircuits import Q\n\nforce = Q(1, "N") + Q(2, "mm")')  # type: ignore[no-untyped-call]
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == 'line 3: force = Q(1, "N") + Q(2, "mm")'
    assert lines[1].startswith("QuantityError: quantities must be of one kind")
    assert len(lines) == 2
