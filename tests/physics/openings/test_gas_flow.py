"""Air through an opening, against textbooks, an independent nozzle and itself both ways."""

from itertools import pairwise
from math import inf, sqrt

import cantera
import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.gas_flow import (
    critical_ratio,
    mass_flow,
    mass_flow_and_slopes,
    mass_flux,
    pressure_after,
)
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from tests.published.table import Row, rows

AREA, AMBIENT, WARM = 1e-4, 101_325.0, 300.0
TEXTBOOK = {"gas_constant": 287.0, "heat_ratio": 1.4}
PSI, POUND, SQUARE_FOOT = 6894.757, 0.45359237, 0.09290304  # Pa, kg, m2; NIST SP 811


def stagnation(temperature: float, pressure: float, velocity: float) -> tuple[float, float]:
    """Return temperature and pressure of air brought to rest, with cp 1005 and gamma 1.4."""
    total = temperature + velocity**2 / (2 * 1005)
    return total, pressure * (total / temperature) ** 3.5


@pytest.mark.parametrize("row", rows("2 nozzle unchoked", "600 C"))
def test_nozzle_of_the_fast_hot_inlet(row: Row) -> None:
    # The table's 0.3 %, not the last digit: the book reads its ratios to three figures.
    total, pressure = stagnation(873.0, 1e6, 150.0)
    assert mass_flow(50e-4, pressure, 0.7e6, total, **TEXTBOOK) == row.approx


@pytest.mark.parametrize("row", rows("2 nozzle choked", "0.4 MPa"))
def test_nozzle_of_the_fast_hot_inlet_choked(row: Row) -> None:
    total, pressure = stagnation(873.0, 1e6, 150.0)
    assert mass_flow(50e-4, pressure, 0.4e6, total, **TEXTBOOK) == row.digits


@pytest.mark.parametrize("row", rows("2 nozzle unchoked", "333 K"))
def test_nozzle_from_rest(row: Row) -> None:
    # 2.2 is printed with two figures; the table's 0.3 % is the finer.
    assert mass_flow(1e-3, 1e6, 591e3, 333.0, **TEXTBOOK) == row.digits


@pytest.mark.parametrize("row", rows("2 nozzle choked (US units)"))
def test_nozzle_in_us_units(row: Row) -> None:
    total = (40 + 459.67) / 1.8 * (1 + 0.2 * 0.52**2)
    pressure = 60 * PSI * (1 + 0.2 * 0.52**2) ** 3.5
    throat = 0.013 * SQUARE_FOOT * 0.52 * (1.2 / (1 + 0.2 * 0.52**2)) ** 3
    flow = mass_flow(throat, pressure, 30 * PSI, total, **TEXTBOOK)
    assert flow / POUND == row.digits


@pytest.mark.parametrize("row", rows("2 critical pressure ratio"))
def test_critical_ratio(row: Row) -> None:
    assert critical_ratio(1.4) == row.digits


@pytest.mark.parametrize("row", rows("2 choked mass flux constant"))
def test_choked_flux(row: Row) -> None:
    flow = mass_flow(AREA, AMBIENT, 0.2 * AMBIENT, WARM, **TEXTBOOK)
    assert flow * WARM**0.5 / (AREA * AMBIENT) == row.digits


@pytest.fixture(scope="module")
def air() -> cantera.Solution:
    return cantera.Solution("air.yaml")


@pytest.mark.parametrize("ratio", [0.99, 0.95, 0.8, 0.7, 0.6, 0.55])
def test_flow_is_that_of_a_nozzle_at_constant_entropy(ratio: float, air: cantera.Solution) -> None:
    # Cantera's air with its own heat capacities, which vary: 0.1 % covers our fixed 1.4.
    air.TP = WARM, AMBIENT
    constant = cantera.gas_constant / air.mean_molecular_weight
    entropy, enthalpy = air.s, air.h
    air.SP = entropy, ratio * AMBIENT
    expected = AREA * air.density * sqrt(2 * (enthalpy - air.h))
    flow = mass_flow(AREA, AMBIENT, ratio * AMBIENT, WARM, gas_constant=constant)
    assert flow == pytest.approx(expected, rel=1e-3)


def test_choked_flow_is_the_greatest_a_nozzle_can_pass(air: cantera.Solution) -> None:
    air.TP = WARM, AMBIENT
    constant = cantera.gas_constant / air.mean_molecular_weight
    entropy, enthalpy, fluxes = air.s, air.h, []
    for ratio in linspace(0.4, 0.7, 301):
        air.SP = entropy, ratio * AMBIENT
        fluxes.append(air.density * sqrt(2 * (enthalpy - air.h)))
    flow = mass_flow(1.0, AMBIENT, 0.1 * AMBIENT, WARM, gas_constant=constant)
    assert flow == pytest.approx(max(fluxes), rel=1e-3)


def test_small_drop_is_bernoullis() -> None:
    drop, density = 100.0, AMBIENT / (287.05287 * WARM)
    flow = mass_flow(AREA, AMBIENT, AMBIENT - drop, WARM)
    assert flow == pytest.approx(AREA * sqrt(2 * density * drop), rel=1e-3)


def test_flow_turns_round_with_the_pressures() -> None:
    there = mass_flow(AREA, AMBIENT, 90e3, WARM)
    assert mass_flow(AREA, 90e3, AMBIENT, WARM) == -there


def test_no_drop_no_flow() -> None:
    assert mass_flow(AREA, AMBIENT, AMBIENT, WARM) == 0


PRESSURES = st.floats(20e3, 120e3)


@given(PRESSURES, PRESSURES)
def test_slopes_are_those_of_the_flow(first: float, second: float) -> None:
    step = 1e-4 * max(0.1, min(abs(first - second), 1e3))
    slopes = mass_flow_and_slopes(AREA, first, second, WARM)
    ahead, behind = (mass_flow(AREA, first + sign * step, second, WARM) for sign in (1, -1))
    scale = slopes.slope_from + abs(slopes.flow) / first
    assert (ahead - behind) / (2 * step) == pytest.approx(slopes.slope_from, abs=2e-4 * scale)
    ahead, behind = (mass_flow(AREA, first, second + sign * step, WARM) for sign in (1, -1))
    assert (ahead - behind) / (2 * step) == pytest.approx(slopes.slope_to, abs=2e-4 * scale)


@given(PRESSURES, PRESSURES, st.floats(1.1, 1.6))
def test_flow_with_its_slopes_is_the_flow_without(first: float, second: float, heat: float) -> None:
    alone = mass_flow(AREA, first, second, WARM, 0.8, heat_ratio=heat)
    slopes = mass_flow_and_slopes(AREA, first, second, WARM, 0.8, heat_ratio=heat)
    assert slopes.flow == pytest.approx(alone, rel=1e-13)


def test_flux_is_the_flow_through_a_square_metre() -> None:
    assert mass_flux(AMBIENT, 90e3, 287.0 * WARM) == mass_flow(
        1.0, AMBIENT, 90e3, WARM, gas_constant=287.0
    )


def test_slope_is_finite_where_the_flow_turns() -> None:
    slopes = mass_flow_and_slopes(AREA, AMBIENT, AMBIENT, WARM)
    assert slopes.slope_from == pytest.approx(-slopes.slope_to, rel=1e-9)
    assert 0 < slopes.slope_from < inf


def test_smoothing_has_gone_at_an_inch_of_water() -> None:
    soft = mass_flow(AREA, AMBIENT, AMBIENT - 249.0, WARM)
    sharp = mass_flow(AREA, AMBIENT, AMBIENT - 249.0, WARM, smoothing=1e-6)
    assert soft == pytest.approx(sharp, rel=5e-6)


@given(st.floats(0.54, 0.99999))
def test_pressure_after_inverts_the_flow(ratio: float) -> None:
    flow = mass_flow(AREA, AMBIENT, ratio * AMBIENT, WARM, 0.8)
    back = pressure_after(AREA, AMBIENT, flow, WARM, 0.8)
    assert back == pytest.approx(ratio * AMBIENT, rel=1e-7)


def test_pressure_after_is_what_a_root_finder_finds() -> None:
    flow = 0.9 * mass_flow(AREA, AMBIENT, 1e4, WARM)
    found = brentq(lambda p: mass_flow(AREA, AMBIENT, p, WARM) - flow, 54e3, AMBIENT, xtol=1e-9)
    assert pressure_after(AREA, AMBIENT, flow, WARM) == pytest.approx(found, rel=1e-9)


def test_pressure_falls_away_behind_a_choked_opening() -> None:
    most = mass_flow(AREA, AMBIENT, 1e4, WARM)
    behind = [pressure_after(AREA, AMBIENT, most * x, WARM) for x in (1.0, 1.005, 1.01, 5.0)]
    assert all(less < more for more, less in pairwise(behind))
    assert behind[-1] > 0


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf")])
def test_pressure_that_is_none_is_refused(bad: float) -> None:
    with pytest.raises(RangeError, match="pressure must be positive"):
        mass_flow(AREA, bad, AMBIENT, WARM)
