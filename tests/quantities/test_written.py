import math
import re
from itertools import product

import pytest
from fuelcircuits.errors import RangeError, UnitError
from fuelcircuits.quantities.unit_table import PREFIXES, TURNED, UNITS
from fuelcircuits.quantities.units import Q
from fuelcircuits.quantities.written import like, si, unit_in

from tests.places import RIGS
from tests.published.table import Row, rows

SI = ("meter", "kilogram", "second", "kelvin")
SIGNS = {"%": "percent", "ft_lb": "foot_pound"}
ALONE = [name for names in (*UNITS, *TURNED) for name in names.split()]
LONG = [each[-1] for each in map(str.split, TURNED) if len(each) > 1]
SHORT = [name for names in TURNED for name in names.split() if len(name) < 4]
PREFIXED = [  # but for a hectobar, whose sign Pint takes for the constant of Planck
    *("".join(pair) for pair in product([each.split()[-1] for each in PREFIXES], LONG)),
    *(
        "".join(pair)
        for pair in product([each.split()[0] for each in PREFIXES], SHORT)
        if pair != ("h", "bar")
    ),
]
WHOLE = ["feet", "inches", "pounds", "degrees", "minutes", "ounces", "millimeters", "kilograms"]
COMPOUND = sorted(
    {
        text
        for card in RIGS.glob("*.toml")
        for text in re.findall(r'"[\d.]+(?:e-?\d+)? *([^"\d][^",]*)"', card.read_text("utf-8"))
    }
)


# NIST SP 811, appendix B (from memory); inHg and inH2O seen in public unit tables.
@pytest.mark.parametrize("row", rows("14 unit conversion"))
def test_unit_has_its_published_factor(row: Row) -> None:
    shop, base = re.fullmatch(r"1 (\S+) in (\S+)", row.inputs).groups()  # type: ignore[union-attr]
    assert si(f"1 {shop}", base) == row.digits
    assert Q(1, shop).m_as(base) == row.digits


@pytest.mark.parametrize("name", [*ALONE, *PREFIXED, *WHOLE, *COMPOUND])
def test_units_of_the_table_are_those_of_the_units_library(name: str) -> None:
    unit = unit_in(name)
    text = SIGNS.get(name, f"1{name}" if name.startswith("/") else name)
    for shown in (0.0, 1.0):
        true = Q(shown, text).to_base_units()
        powers = {str(part): power for part, power in true.unit_items()}
        assert unit.dimension == tuple(powers.get(part, 0) for part in SI)
        assert shown * unit.one + unit.nought == pytest.approx(float(true.m), rel=1e-13, abs=0)


def test_cards_write_units_by_the_dozen() -> None:
    assert len(COMPOUND) > 20


# Definition of the Celsius and Fahrenheit scales.
@pytest.mark.parametrize(("text", "kelvin"), [("0 degC", 273.15), ("32 degF", 273.15)])
def test_point_on_a_temperature_scale(text: str, kelvin: float) -> None:
    assert math.isclose(si(text, "K"), kelvin)


# One inch is 25.4 mm (international yard and pound agreement, 1959).
@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("1-1/16 in", 1.0625),
        ("1 1/4 in", 1.25),
        ("3/8 in", 0.375),
        ("-1/2 in", -0.5),
        (".5in", 0.5),
        ("2.5e-1 * in", 0.25),
    ],
)
def test_an_inch_is_read_in_decimals_and_fractions(text: str, inches: float) -> None:
    assert math.isclose(si(text, "m"), inches * 0.0254)


# ANSI/ASME B94.11M: drill 65 is 0.0350 in, drill 40 is 0.0980 in, drill 1 is 0.2280 in.
@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("#65", 0.035),
        ("#65 drill", 0.035),
        ("No. 40", 0.098),
        ("no 40 drill", 0.098),
        ("Drill 1", 0.228),
        ("drill #1", 0.228),
    ],
)
def test_a_number_drill_stands_for_its_diameter(text: str, inches: float) -> None:
    assert si(text, "m") == pytest.approx(inches * 0.0254)


def test_a_number_drill_is_a_length_and_no_other_kind() -> None:
    with pytest.raises(UnitError, match="must be convertible to Pa, got #65"):
        si("#65", "Pa")
    with pytest.raises(RangeError, match="drill number must be between 1 and 97, got 120"):
        si("#120", "m")


@pytest.mark.parametrize(
    ("value", "message"),
    [
        ("5 kg", "seat bore must be convertible to m, got 5 kg"),
        ("5", "seat bore must be convertible to m"),
        ("5 furbles", "seat bore must be a number with a unit such as m"),
        ("1/0 in", "seat bore must be a number with a unit such as m"),
        ("mm", "seat bore must be a number with a unit such as m"),
        (None, "seat bore must be a number with a unit such as m"),
    ],
)
def test_what_is_no_length_is_refused_by_name(value: object, message: str) -> None:
    with pytest.raises(UnitError, match=message):
        si(value, "m", "seat bore")


@pytest.mark.parametrize(
    ("written", "number", "unit", "text"),
    [
        ("-2.3 mm", 6e-3, "m", "6 mm"),
        ("1-1/16 in", 25.4e-3, "m", "1 in"),
        ("26e-6 / K", 1e-5, "1/K", "1e-05 / K"),
        ("70 degF", 273.15, "K", "32 degF"),
    ],
)
def test_a_bound_is_told_in_the_unit_somebody_used(
    written: str, number: float, unit: str, text: str
) -> None:
    assert like(written, number, unit) == text


@pytest.mark.parametrize(
    ("unit", "label"),
    [
        ("kg/m**3", "kg/m³"),
        ("lb/ft^3", "lb/ft³"),
        ("N*m", "N m"),
        ("1/min", "1/min"),
        ("degC", "°C"),
        ("millilitres", "ml"),
        ("J/(kg K)", "J/(kg K)"),
        ("", ""),
    ],
)
def test_label_of_a_unit(unit: str, label: str) -> None:
    assert unit_in(unit).label == label
