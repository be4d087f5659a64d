"""The drilled hole's coefficient: published values, textbooks, and its limits."""

import math
from itertools import pairwise

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings import orifice
from scipy.optimize import brentq

from tests.published.table import Row, rows


def coefficient(reynolds: float, slender: float) -> float:
    """Return the discharge coefficient of a hole."""
    ultimate = orifice.ultimate_coefficient(slender)
    return orifice.viscous_coefficient(reynolds, slender, ultimate)


# Lichtarowicz, Duggins and Markland 1965, seen in a public re-coding.
@pytest.mark.parametrize("row", rows("4 long-orifice Cd"))
def test_coefficient_is_the_published_one(row: Row) -> None:
    assert coefficient(row.number("Re_h="), row.number("L/d=")) == row.approx


# Merritt 1967 for short tubes, from other measurements than Lichtarowicz's: they part by up to
# 11 %, ours the higher between Reynolds number 200 and 2000, where jets and bleeds work.
@pytest.mark.parametrize("row", rows("4 short-tube Cd"))
def test_coefficient_is_near_another_published_one(row: Row) -> None:
    actual, slender = row.number("Re="), row.number("L/d=")
    ideal = brentq(
        lambda each: each * coefficient(each, slender) - actual, actual, 50 * actual, xtol=1e-9
    )
    assert coefficient(ideal, slender) == row.approx


# Creeping flow, which no jet comes down to: the relation's drop is two fifths too small there.
@pytest.mark.parametrize("row", rows("4 slow flow through a hole"))
def test_creeping_flow_is_as_far_off_as_the_page_says(row: Row) -> None:
    ideal = 1e-3
    through = coefficient(ideal, row.number("L/d="))
    assert ideal / through == row.approx
    assert ideal / through < 0.7 * row.expected


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


# Kirchhoff's free streamlines: pi/(pi + 2) for a slot or hole in a thin plate.
def test_thin_plate_is_the_limit_of_a_short_hole() -> None:
    assert coefficient(1e9, 0.0) == pytest.approx(0.611, abs=5e-4)


# Lichtarowicz et al.: a hole has refilled by two diameters and only loses by more length.
def test_hole_refills_up_to_two_diameters_and_then_only_loses() -> None:
    short = [orifice.ultimate_coefficient(each) for each in linspace(0, math.nextafter(2, 0), 50)]
    long = [orifice.ultimate_coefficient(each) for each in linspace(2, 10, 50)]
    assert all(before <= after for before, after in pairwise(short))
    assert all(before > after for before, after in pairwise(long))
    assert short[-1] == pytest.approx(long[0], abs=1e-12)


# The trap of the two conventions at a Reynolds number of 1000, by this relation.
@pytest.mark.parametrize(("slender", "apart"), [(2.0, 0.0204), (4.0, 0.0417), (10.0, 0.1142)])
def test_the_two_reynolds_numbers_are_not_the_same(slender: float, apart: float) -> None:
    ideal = brentq(lambda each: each * coefficient(each, slender) - 1000, 1000, 5000, xtol=1e-9)
    ratio = coefficient(ideal, slender) / coefficient(1000, slender)
    assert ratio - 1 == pytest.approx(apart, abs=1e-4)


@pytest.mark.parametrize("slender", [-3.0, 11.0, math.nan])
def test_hole_outside_the_relation_is_refused(slender: float) -> None:
    with pytest.raises(RangeError, match="length over diameter must be between 0 and 10"):
        orifice.ultimate_coefficient(slender)
