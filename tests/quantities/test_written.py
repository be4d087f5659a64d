import math
import re

import pytest
from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.units import Q, si

from tests.published.table import Row, rows


# NIST SP 811, appendix B (from memory); inHg and inH2O seen in public unit tables.
@pytest.mark.parametrize("row", rows("14 unit conversion"))
def test_unit_has_its_published_factor(row: Row) -> None:
    shop, base = re.fullmatch(r"1 (\S+) in (\S+)", row.inputs).groups()  # type: ignore[union-attr]
    assert si(Q(1, shop), base) == row.digits


def test_text_and_quantity_give_the_same_number() -> None:
    assert si("5 psi", "Pa") == si(Q(5, "psi"), "Pa")


# Definition of the Celsius and Fahrenheit scales.
@pytest.mark.parametrize(("text", "kelvin"), [("0 degC", 273.15), ("32 degF", 273.15)])
def test_point_on_a_temperature_scale(text: str, kelvin: float) -> None:
    assert math.isclose(si(text, "K"), kelvin)


# One inch is 25.4 mm (international yard and pound agreement, 1959).
@pytest.mark.parametrize(
    ("text", "inches"), [("1-1/16 in", 1.0625), ("1 1/4 in", 1.25), ("3/8 in", 0.375)]
)
def test_a_fraction_of_an_inch_is_read(text: str, inches: float) -> None:
    assert math.isclose(si(text, "m"), inches * 0.0254)


@pytest.mark.parametrize(
    ("value", "message"),
    [
        ("5 kg", "seat bore must be convertible to m, got 5 kg"),
        ("5", "seat bore must be convertible to m"),
        ("5 furbles", "seat bore must be a number with a unit such as m"),
        (None, "seat bore must be a number with a unit such as m"),
    ],
)
def test_what_is_no_length_is_refused_by_name(value: object, message: str) -> None:
    with pytest.raises(UnitError, match=message):
        si(value, "m", "seat bore")
