"""Liquid through a drilled hole: published coefficients, textbooks, a library, and its limits."""

import math
from itertools import pairwise

import pytest
from fluids.core import Reynolds
from fluids.flow_meter import differential_pressure_meter_solver
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings import orifice
from hypothesis import given
from hypothesis import strategies as st

from tests.published.table import Row, rows

PETROL = {"density": 740.0, "viscosity": 0.5e-3}
DIAMETERS = st.floats(0.4e-3, 2.5e-3)
SLENDER = st.floats(0.0, 10.0)
DROPS = st.floats(1e-3, 1e5)


# Lichtarowicz, Duggins and Markland 1965, seen in a public re-coding.
@pytest.mark.parametrize("row", rows("4 long-orifice Cd"))
def test_coefficient_is_the_published_one(row: Row) -> None:
    coefficient = orifice.discharge_coefficient(row.number("Re_h="), row.number("L/d="))
    assert coefficient == row.approx


# Cengel & Cimbala, example 8-10: an orifice meter, so with its velocity of approach.
@pytest.mark.parametrize("row", rows("4 orifice meter textbook"))
def test_ideal_flux_gives_the_textbooks_orifice_meter(row: Row) -> None:
    bore, pipe = row.number("d"), row.number("D")
    drop = (13600 - 788.4) * 9.81 * row.number("Hg") / 100
    speed = orifice.ideal_flux(drop, 788.4) / 788.4 / math.sqrt(1 - (bore / pipe) ** 4)
    assert 0.61 * math.pi / 4 * (bore / 1000) ** 2 * speed == row.digits


# Gupta, example 9.1: 0.4 kg/min of fuel under three quarters of the venturi's depression, which
# is that of air at 90 m/s with velocity coefficient 0.8.
@pytest.mark.parametrize("row", rows("2 fuel orifice", "mf .4"))
def test_ideal_flux_gives_the_textbooks_fuel_jet(row: Row) -> None:
    ratio = (1 - (90 / 0.8) ** 2 / (2 * 1005 * 300)) ** 3.5
    flux = 0.6 * orifice.ideal_flux(0.75 * 1.013e5 * (1 - ratio), 780.0)
    assert 1000 * math.sqrt(4 * 0.4 / 60 / (math.pi * flux)) == row.digits


# fluids: an orifice meter in a pipe too wide for the approach to count, our coefficient given.
@pytest.mark.parametrize("drop", [50.0, 500.0, 5e3, 5e4])
def test_flow_is_that_of_the_fluids_library(drop: float) -> None:
    reynolds = orifice.reynolds_number(1.3e-3, drop, **PETROL)
    flow = differential_pressure_meter_solver(
        D=1.0, D2=1.3e-3, P1=1e5 + drop, P2=1e5, rho=740.0, mu=0.5e-3, k=1.3,
        meter_type="ISO 5167 orifice", epsilon_specified=1.0,
        C_specified=orifice.discharge_coefficient(reynolds, 3.0),
    )  # fmt: skip
    assert orifice.mass_flow(1.3e-3, 3.9e-3, drop, **PETROL) == pytest.approx(flow, rel=1e-6)


def test_reynolds_number_is_the_librarys_at_the_ideal_velocity() -> None:
    expected = Reynolds(V=math.sqrt(2 * 2000 / 740), D=1.3e-3, rho=740, mu=0.5e-3)
    assert orifice.reynolds_number(1.3e-3, -2000, **PETROL) == pytest.approx(expected)


# Kirchhoff's free streamlines: pi/(pi + 2) for a slot or hole in a thin plate.
def test_thin_plate_is_the_limit_of_a_short_hole() -> None:
    assert orifice.discharge_coefficient(1e9, 0.0) == pytest.approx(0.611, abs=5e-4)


# Lichtarowicz et al.: a hole has refilled by two diameters and only loses by more length.
def test_hole_refills_up_to_two_diameters_and_then_only_loses() -> None:
    short = [orifice.ultimate_coefficient(each) for each in linspace(0, math.nextafter(2, 0), 50)]
    long = [orifice.ultimate_coefficient(each) for each in linspace(2, 10, 50)]
    assert all(before <= after for before, after in pairwise(short))
    assert all(before > after for before, after in pairwise(long))
    assert short[-1] == pytest.approx(long[0], abs=1e-12)


# First principles: a laminar flow is proportional to the drop.
@pytest.mark.parametrize("times", [-2, -1, 0, 2])
def test_flow_is_proportional_to_the_drop_near_nought(times: float) -> None:
    small = orifice.mass_flow(1e-3, 3e-3, 1e-9, **PETROL)
    flow = orifice.mass_flow(1e-3, 3e-3, times * 1e-9, **PETROL)
    assert flow == pytest.approx(times * small, rel=1e-3)


# Poiseuille, through `fluids`' friction factor 64/Re: the fit gives up to half as much again.
def test_laminar_end_of_a_long_hole_is_of_poiseuilles_size() -> None:
    drop, bore, length = 1e-4, 1e-3, 10e-3
    poiseuille = 740 * math.pi * bore**4 * drop / (128 * 0.5e-3 * length)
    assert 1 < orifice.mass_flow(bore, length, drop, **PETROL) / poiseuille < 1.5


@given(DIAMETERS, SLENDER, DROPS)
def test_flow_turns_round_with_the_drop(diameter: float, slender: float, drop: float) -> None:
    length = slender * diameter
    back = orifice.mass_flow(diameter, length, -drop, **PETROL)
    assert orifice.mass_flow(diameter, length, drop, **PETROL) == -back


@given(DIAMETERS, SLENDER, DROPS)
def test_flow_rises_with_drop_and_diameter(diameter: float, slender: float, drop: float) -> None:
    length = slender * diameter
    flow = orifice.mass_flow(diameter, length, drop, **PETROL)
    assert flow < orifice.mass_flow(diameter, length, 1.01 * drop, **PETROL)
    assert flow < orifice.mass_flow(1.01 * diameter, length, drop, **PETROL)


@given(DIAMETERS, st.floats(0.0, 9.9), DROPS)
def test_diameter_gives_back_the_flow(diameter: float, slender: float, drop: float) -> None:
    length = slender * diameter
    flow = orifice.mass_flow(diameter, length, drop, **PETROL)
    found = orifice.diameter_for(flow, length, drop, **PETROL)
    assert found == pytest.approx(diameter, rel=1e-11)


@given(st.floats(1e-2, 1e6), SLENDER)
def test_actual_reynolds_number_leads_to_the_same_coefficient(ideal: float, slender: float) -> None:
    coefficient = orifice.discharge_coefficient(ideal, slender)
    actual = max(coefficient * ideal, 1e-3)
    again = orifice.coefficient_from_actual(actual, slender)
    assert orifice.discharge_coefficient(actual / again, slender) == pytest.approx(again, rel=1e-11)


# The trap of the two conventions at a Reynolds number of 1000, by this relation.
@pytest.mark.parametrize(("slender", "apart"), [(2.0, 0.0204), (4.0, 0.0417), (10.0, 0.1142)])
def test_the_two_reynolds_numbers_are_not_the_same(slender: float, apart: float) -> None:
    ideal = orifice.discharge_coefficient(1000, slender)
    assert orifice.coefficient_from_actual(1000, slender) / ideal - 1 == pytest.approx(
        apart, abs=1e-4
    )


@pytest.mark.parametrize(
    ("diameter", "length", "message"),
    [
        (-1e-3, 3e-3, "diameter must be positive, got -0.001 m"),
        (math.nan, 3e-3, "diameter must be positive, got nan m"),
        (1e-3, 11e-3, "length over diameter must be between 0 and 10"),
        (1e-3, -1e-3, "length over diameter must be between 0 and 10"),
    ],
)
def test_hole_outside_the_relation_is_refused(diameter: float, length: float, message: str) -> None:
    with pytest.raises(RangeError, match=message):
        orifice.mass_flow(diameter, length, 1000, **PETROL)


def test_hole_that_would_be_too_slender_is_refused() -> None:
    with pytest.raises(RangeError, match="no longer than 10 diameters"):
        orifice.diameter_for(1e-9, 20e-3, 1000, **PETROL)
