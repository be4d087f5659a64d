"""Units on a bench's dials, against the published factors."""

import pytest
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    DENSITY,
    FLOW,
    FORCE,
    LENGTH,
    PRESSURE,
    TEMPERATURE,
    Measure,
    System,
    both,
    measure,
    parted,
)
from fuelcircuits.errors import UnitError

NIST = [
    # NIST Special Publication 811 (2008), appendix B.8: one shop unit in SI
    (PRESSURE, "US", 6894.757, 1.0),
    (LENGTH, "US", 0.0254, 1.0),
    (FORCE, "US", 4.448222, 1.0),
    (FLOW, "US", 1.259979e-4, 1.0),
    (DENSITY, "US", 16.01846, 1.0),
    # NIST SP 811 B.8: degrees Fahrenheit and Celsius, at the ice point and the steam point
    (TEMPERATURE, "US", 273.15, 32.0),
    (TEMPERATURE, "US", 373.15, 212.0),
    (TEMPERATURE, "SI", 273.15, 0.0),
    (FLOW, "SI", 1e-3, 1.0),
    (PRESSURE, "SI", 1e3, 1.0),
]


@pytest.mark.parametrize(("measure", "system", "si", "shown"), NIST)
def test_scale_agrees_with_published_factors(
    measure: Measure, system: System, si: float, shown: float
) -> None:
    assert measure.scale(system).show(si) == pytest.approx(shown, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize(
    ("unit", "rule"), [("inch", "convertible to Pa, got inch"), ("furlong", "of the table")]
)
def test_unit_of_another_kind_or_unheard_of_is_refused(unit: str, rule: str) -> None:
    with pytest.raises(UnitError, match=rule):
        measure("Pa", ("kPa", 1), (unit, 1))


@pytest.mark.parametrize(
    ("value", "system", "brief", "text"),
    [
        (2.5e-3, "SI", True, "2.50 g/s"),
        (2.5e-3, "SI", False, "2.50 g/s (9.0 kg/h)"),
        (2.5e-3, "US", False, "19.8 lb/h"),
        (-1e-9, "SI", True, "0.00 g/s"),
    ],
)
def test_text_has_unit_and_no_negative_nought(
    value: float, system: System, brief: bool, text: str
) -> None:
    assert FLOW.text(value, system, brief) == text


def test_what_is_told_in_both_systems_parts_into_what_each_would_say() -> None:
    def said(system: System) -> str:
        return f"It draws {FLOW.text(2.5e-3, system)} at {PRESSURE.text(35e3, system)}."

    assert parted(said(both())) == {"SI": said("SI"), "US": said("US")}


def test_degree_sign_stands_at_its_number_and_other_units_apart() -> None:
    # ISO 80000-1 (2022), 7.1.4: no space before the signs of plane angle, one before all others
    assert ANGLE.text(0.2583, "SI") == "14.8°"
    assert TEMPERATURE.text(293.15, "SI") == "20 °C"


def test_what_has_no_value_is_a_dash_without_a_unit() -> None:
    assert FLOW.text(float("nan"), "SI", brief=False) == "–"
