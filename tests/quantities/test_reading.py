"""Reading values and units as the trade writes them, against NIST factors and hostile text."""

import math

import pytest
from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.kinds import dimension_of, kind_of
from fuelcircuits.quantities.number_text import LONGEST
from fuelcircuits.quantities.reading import measure, read
from fuelcircuits.quantities.trade_units import trade_unit
from hypothesis import example, given
from hypothesis import strategies as st

from tests.ending import ends

PSI, INCH_HG, INCH_WATER = 6894.757, 3386.389, 249.089  # Pa; NIST SP 811, appendix B.8
# (inches of mercury and of water: the conventional ones)
POUND, POUND_FORCE, GALLON = 0.45359237, 4.4482216, 3.785412e-3  # kg, N, m3; NIST SP 811
INCH = 0.0254  # m, exact; NIST SP 811

NUMBERS = {
    "12.5 Pa": 12.5,
    "12,5 Pa": 12.5,
    "0,125 Pa": 0.125,
    ",5 Pa": 0.5,
    "1,234.5 Pa": 1234.5,
    "1.234,5 Pa": 1234.5,
    "1 234.5 Pa": 1234.5,
    "1\u202f234,5 Pa": 1234.5,
    "1'234.5 Pa": 1234.5,
    "1,234,567 Pa": 1234567,
    "1.2e3 Pa": 1200,
    "1.2 x 10^3 Pa": 1200,
    "1,2·10³ Pa": 1200,
    "1.2×10⁻³ Pa": 0.0012,
    "−3 Pa": -3,
    "= 5 Pa": 5,
    "5 Pa.": 5,
    "3/8 Pa": 0.375,
    "1-1/4 Pa": 1.25,
    "1 1/4 Pa": 1.25,
    "1½ Pa": 1.5,
    "-3/8 Pa": -0.375,
    "+3/8 Pa": 0.375,
    "-1-1/4 Pa": -1.25,
    "1,5, Pa": 1.5,
    "1.5. Pa": 1.5,
}
UNITS = {
    "psi": PSI,
    "PSI": PSI,
    "lb/in2": PSI,
    "lbs per square inch": PSI,
    "inHg": INCH_HG,
    "in. Hg": INCH_HG,
    "inches of mercury": INCH_HG,
    "inH2O": INCH_WATER,
    "in H2O": INCH_WATER,
    "in w.c.": INCH_WATER,
    "kpa": 1000,
    "in": INCH,
    "in.": INCH,
    '"': INCH,
    "mil": INCH / 1000,
    "thou": INCH / 1000,
    "cc": 1e-6,
    "cm3": 1e-6,
    "cm³": 1e-6,
    "cu in": INCH**3,
    "sq in": INCH**2,
    "mm²": 1e-6,
    "ml": 1e-6,
    "lb/h": POUND / 3600,
    "lb per hour": POUND / 3600,
    "pph": POUND / 3600,
    "g/s": 1e-3,
    "US gal/h": GALLON / 3600,
    "gph": GALLON / 3600,
    "cfm": 0.3048**3 / 60,
    "lbf": POUND_FORCE,
    "N m": 1,
    "Nm": 1,
    "%": 0.01,
    "kg/(m*s)": 1,
    "1/s": 1,
    "kilogram ** 0.5 * pascal ** 0.5 / meter ** 1.5": 1,
}
HOSTILE = [
    "9" * 5000 + " m",
    "1 " + "(" * 150 + "m",
    "1 m^99999999999",
    "1 m**9**9**9**9",
    "1 " + "m" * 150,
    "1 " + "m*" * 60 + "m",
    "1 __import__('os')",
    "1 m; print(1)",
    "1/0 m",
    "1e999 m",
    "1e300 Mm^12",
    "\x00",
    "1 \ud800",
]
KELVINS = {"20 degC": 293.15, "68 °F": 293.15, "20 C": 293.15, "20 °C": 293.15, "293.15 K": 293.15}
STATED = {
    "5 psig": "gauge",
    "5 psi gauge": "gauge",
    "5 bar (g)": "gauge",
    "14.7 psia": "absolute",
    "101 kPa abs": "absolute",
    "18 inHg vacuum": "vacuum",
    "5 delta_degC": "difference",
    "5 psi": "",
}


@pytest.mark.parametrize(("text", "value"), NUMBERS.items())
def test_numbers_are_read_as_written_anywhere(text: str, value: float) -> None:
    (reading,) = read(text)
    assert reading.magnitude == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    "text", ["1.2.3 Pa", "1,2,3 Pa", "12,34.5 Pa", "1,234.5.6 Pa", "1.234,5,6 Pa"]
)
def test_a_number_with_two_decimal_signs_is_refused(text: str) -> None:
    with pytest.raises(UnitError, match="one decimal sign"):
        read(text)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("1 m".ljust(LONGEST + 1), f"at most {LONGEST} characters, got {LONGEST + 1}"),
        ("some", "begin with a number, got 'some'"),
        ("3/0 m", "zero below the line, got '3/0'"),
        ("1e999 m", "a finite number, got inf"),
    ],
)
def test_what_cannot_be_read_says_why(text: str, message: str) -> None:
    with pytest.raises(UnitError, match=message):
        read(text)


def test_the_longest_text_is_still_read() -> None:
    (reading,) = read("1 m".ljust(LONGEST))
    assert reading.magnitude == 1.0


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("12,50 inHg", "12.5 inHg"),
        ("123456 Pa", "123460 Pa"),
        ("20 degC", "20 °C"),
        ("5 delta_degC", "5 °C (difference)"),
    ],
)
def test_a_reading_is_shown_as_it_was_understood(text: str, shown: str) -> None:
    assert [reading.text for reading in read(text)] == [shown]


def test_a_point_on_a_temperature_scale_may_have_been_meant_as_a_difference() -> None:
    assert measure(36, "degF").degrees == pytest.approx(20.0)
    assert [measure(20, unit).degrees for unit in ("K", "delta_degC", "Pa")] == [None] * 3


@pytest.mark.parametrize(("unit", "factor"), UNITS.items())
def test_trade_units_have_the_standard_factors(unit: str, factor: float) -> None:
    (reading,) = read(f"2 {unit}")
    assert reading.magnitude == pytest.approx(2 * factor, rel=1e-4)


@pytest.mark.parametrize(("text", "kelvins"), KELVINS.items())
def test_temperature_scales_count_from_absolute_zero(text: str, kelvins: float) -> None:
    (reading,) = read(text)
    assert reading.magnitude == pytest.approx(kelvins)


@pytest.mark.parametrize(("text", "stated"), STATED.items())
def test_what_a_pressure_counts_from_is_kept(text: str, stated: str) -> None:
    (reading,) = read(text)
    assert reading.stated == stated


def test_one_comma_before_three_digits_is_read_both_ways() -> None:
    magnitudes = [reading.magnitude for reading in read("1,234 N")]
    assert magnitudes == [1.234, 1234]


def test_a_bare_number_is_told_from_one_whose_units_cancel() -> None:
    assert [measure(3, "").bare, measure(3, "dimensionless").bare] == [True, False]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_ends_soon_in_a_reading_or_a_unit_error(text: str) -> None:
    with ends(), pytest.raises(UnitError):
        read(text)


@given(st.text(max_size=LONGEST + 20))
@example("1 m**-")
@example("¼¼¼ m")
@example("1 ٣")
def test_any_text_gives_finite_readings_or_a_unit_error(text: str) -> None:
    try:
        readings = read(text)
    except UnitError:
        return
    assert all(math.isfinite(reading.magnitude) for reading in readings)


@given(st.text(alphabet="kgmsPainHg0123456789 */^().-°µ²%\"'", max_size=60))
def test_any_unit_text_gives_a_reading_or_a_unit_error(text: str) -> None:
    try:
        reading = measure(1.0, text)
    except UnitError:
        return
    assert math.isfinite(reading.magnitude)


@given(
    st.floats(allow_nan=False, allow_infinity=False, min_value=-1e30, max_value=1e30),
    st.sampled_from(sorted(UNITS)),
)
def test_a_number_written_out_reads_back_as_it_was(number: float, unit: str) -> None:
    readings = read(f"{number!r} {unit}")
    assert readings == (measure(number, unit),)


@pytest.mark.parametrize("unit", ["m^13", "blorb", "m/", "/h", "m)", "(m", "2 m", "a" * 161])
def test_an_unknown_unit_is_refused_by_name(unit: str) -> None:
    with pytest.raises(UnitError, match="unit must"):
        trade_unit(unit)


@pytest.mark.parametrize(
    ("unit", "words"),
    [("psi", "a pressure"), ("lb", "a mass"), ("lbf", "a force"), ("lb/h", "a mass flow")],
)
def test_kinds_of_quantity_have_plain_names(unit: str, words: str) -> None:
    assert kind_of(dimension_of(unit)).words == words
