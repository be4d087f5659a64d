"""Units are written as the trade writes them, and what is written can be read back.

The symbols are those of the SI brochure (9th edition, tables 4 to 8) and, for inch and pound
units, common practice, no source.
"""

import pytest
from fuelcircuits.quantities.trade_units import labelled, trade_unit
from fuelcircuits.quantities.unit_label import unit_label

LABELS = {
    "millimeter ** 2": "mm²",
    "mm^2": "mm²",
    "kilogram / meter ** 3": "kg/m³",
    "degC": "°C",
    "delta_degC": "°C",
    "degF": "°F",
    "percent": "%",
    "pound_force_per_square_inch": "psi",
    "inHg": "inHg",
    "inH2O": "inH2O",
    "N*mm": "N·mm",
    "mPa*s": "mPa·s",
    "1/min": "1/min",
    "kg/(m*s)": "kg/(m·s)",
    "gram / second": "g/s",
    "kg^0.5": "kg^0.5",
    "thou": "thou",
    "liter / hour": "l/h",
    "": "",
    "dimensionless": "",
}
WRITTEN = [
    ("12.57", "millimeter ** 2", "12.57 mm²"),
    ("5.1", "psi", "5.1 psi"),
    ("30", "deg", "30°"),
    ("25", "percent", "25 %"),
    ("0.8", "", "0.8"),
    ("3", "no_such_unit", "3 no_such_unit"),
    ("3", "9**9**9**9", "3 9**9**9**9"),
    ("3", "x" * 500, "3 " + "x" * 40),
]


@pytest.mark.parametrize(("unit", "label"), LABELS.items())
def test_a_unit_has_the_label_of_the_trade(unit: str, label: str) -> None:
    assert unit_label(trade_unit(unit)) == label


@pytest.mark.parametrize("unit", sorted(set(LABELS) - {"delta_degC"}))
def test_a_label_can_be_read_back(unit: str) -> None:
    assert trade_unit(unit_label(trade_unit(unit))) == trade_unit(unit)


@pytest.mark.parametrize(("number", "unit", "text"), WRITTEN)
def test_a_number_is_written_with_its_unit_which_is_never_evaluated(
    number: str, unit: str, text: str
) -> None:
    assert labelled(number, unit) == text
