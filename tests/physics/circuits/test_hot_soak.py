"""Heat and vapour in a standing bowl: against hand balances and AP-42's numbers."""

from dataclasses import replace
from itertools import pairwise
from math import log, pi, sqrt

import pytest
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.circuits.bowl_vents import DISCHARGE, Vents, openings
from fuelcircuits.physics.circuits.hot_soak import HotSoak, heat_flows, outlets
from fuelcircuits.physics.matter.fuel import Fuel, vapour_pressure
from fuelcircuits.physics.motion.boiling import VAPOUR_CONSTANT, boiling_margin, vapour_flow
from fuelcircuits.physics.numerics.interpolation import linspace

SOAK = HotSoak(
    exhaust_heat=7e3,
    exhaust_to_block=8.0,
    exhaust_to_air=4.0,
    block_heat=110e3,
    block_to_air=16.0,
    block_to_bowl=1.1,
    bowl_to_air=0.7,
    bowl_heat=1.4e3,
)
VENTS = Vents(inside_bore=5e-3, outside_bore=8e-3, outside_setting=1.5e-3)
TWO_WAY = Vents(inside_bore=7e-3, canister_bore=6e-3, switched_share=1.0)
PETROL, SEA = Fuel(), 101_325.0


def test_no_heat_flows_between_equal_temperatures() -> None:
    assert heat_flows(SOAK, 300, 300, 300, 300) == pytest.approx([0.0] * 5, abs=1e-12)


def test_the_air_passes_on_to_the_outside_no_more_than_it_takes_up() -> None:
    heat = heat_flows(SOAK, 600.0, 360.0, 330.0, 290.0)
    inside = 600.0 - heat.exhaust_to_air / 4.0
    assert heat.exhaust_to_air + heat.block_to_air == pytest.approx(20.0 * (inside - 290.0))
    assert heat.air_to_bowl == pytest.approx(0.7 * (inside - 330.0))


def test_a_tenth_lost_raises_the_boiling_point_by_the_slope_of_the_curve() -> None:
    # AP-42: slope of 3 degF for each hundredth of the volume; 30 degF is 16.7 K.
    fresh = boiling_margin(PETROL, 320.0, 0.0, SEA)
    assert boiling_margin(PETROL, 320.0 + 30 / 1.8, 0.1, SEA) == pytest.approx(fresh)


@pytest.mark.parametrize("temperature", [290.0, 315.0, 330.0, 350.0])
@pytest.mark.parametrize("bore", [0.5e-3, 2e-3, 8e-3])
def test_vapour_and_bowl_pressure_satisfy_both_their_equations(
    temperature: float, bore: float
) -> None:
    vents = Vents(inside_bore=bore)
    flow, boiling, pressure = vapour_flow(SOAK, vents, PETROL, temperature, 0.02, ambient=SEA)
    margin = boiling_margin(PETROL, temperature, 0.02, pressure)
    assert boiling == pytest.approx(SOAK.boil_rate * max(margin, 0.0), rel=1e-6, abs=1e-15)
    density = SEA / (VAPOUR_CONSTANT * temperature)
    through = DISCHARGE * pi / 4 * bore**2 * sqrt(2 * density * (pressure - SEA))
    assert through == pytest.approx(flow, rel=1e-5)


def test_well_below_boiling_vapour_spreads_by_stefans_law() -> None:
    flow, boiling, _ = vapour_flow(SOAK, VENTS, PETROL, 290.0, 0.0, ambient=SEA)
    vapour = vapour_pressure(PETROL, 290.0)
    assert flow == pytest.approx(SOAK.spread_rate * log(SEA / (SEA - vapour)))
    assert boiling == 0


def test_a_hotter_bowl_and_a_higher_place_make_more_vapour() -> None:
    by_heat = [made(temperature=kelvin) for kelvin in linspace(280.0, 350.0, 15)]
    by_height = [made(ambient=pressure) for pressure in linspace(SEA, 70e3, 9)]
    by_fuel = [made(fuel=Fuel(reid_vapour_pressure=reid)) for reid in (50e3, 62e3, 80e3)]
    for flows in (by_heat, by_height, by_fuel):
        assert all(before < after for before, after in pairwise(flows))


def made(fuel: Fuel = PETROL, temperature: float = 322.0, ambient: float = SEA) -> float:
    return vapour_flow(SOAK, VENTS, fuel, temperature, 0.0, ambient=ambient)[0]


@pytest.mark.parametrize(
    ("vents", "way", "share"),
    [
        (Vents(inside_bore=5e-3), "inside", 1.0),
        (TWO_WAY, "canister", 1.0),
        (replace(TWO_WAY, solenoid_stick=1.0), "inside", 1.0),
        (replace(VENTS, outside_setting=0.0), "outside", 0.0),
    ],
)
def test_the_vapour_leaves_by_what_is_open(vents: Vents, way: str, share: float) -> None:
    # Common practice, no source: which way is open with the ignition off.
    assert outlets(vents)._asdict()[way] == pytest.approx(share)


def test_the_ways_share_the_vapour_by_their_areas() -> None:
    areas = openings(VENTS, 0.0, 0.0)
    shares = outlets(VENTS)
    assert sum(shares) == pytest.approx(1.0)
    assert shares.outside / shares.inside == pytest.approx(areas.outside / areas.inside)


def test_a_bowl_that_cannot_breathe_is_refused() -> None:
    with pytest.raises(ConvergenceError, match="every vent shut"):
        vapour_flow(SOAK, Vents(inside_bore=0.0), PETROL, 330.0, 0.0, ambient=SEA)
