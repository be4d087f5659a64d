"""The engine as an air pump."""

import dataclasses
from math import pi

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.engine.engine import (
    Engine,
    air_demand,
    manifold_pressure,
    manifold_temperature,
    pumped_air,
    swept_flow,
    volumetric_efficiency,
)
from hypothesis import given
from hypothesis import strategies as st

from tests.published.table import Row, rows

RPM = 2 * pi / 60  # rad/s
AMBIENT = 101_325.0
# Invented for the tests.
SIX = Engine(
    displacement=3.1e-3,
    cylinders=6,
    idle_speed=700 * RPM,
    highest_speed=4400 * RPM,
    breathing=0.86,
    breathing_speed=2000 * RPM,
    breathing_width=3800 * RPM,
)


@pytest.mark.parametrize("row", rows("12 volumetric efficiency"))
def test_volumetric_efficiency_of_a_test_bed(row: Row) -> None:
    # Air measured over air that would fill what is swept. 287 J/(kg K) and 305 K as the book
    # takes them, whose rounded flows make 78.16 of our 78.15.
    filling = swept_flow(6 * 700e-6, 3200 * RPM) * 0.9e5 / (287 * 305)
    assert 100 * 27 * 12 / 3600 / filling == row.digits


def test_four_stroke_engine_breathes_once_in_two_turns() -> None:
    assert swept_flow(3e-3, 4 * pi) == pytest.approx(3e-3)


def test_pumped_air_is_the_ideal_gas() -> None:
    # ISO 2533, standard atmosphere at sea level: 1.225 kg/m3.
    assert pumped_air(1.0, 101_325.0, 288.15) == pytest.approx(1.225, rel=1e-5)


def test_fuel_vapour_takes_the_place_of_air() -> None:
    # By moles: 1/15 kg of vapour of 8314/80 kg/kmol with each kilogram of air of 28.964.
    share = 1 / (1 + (1 / 15) * 28.9644 / (8314.32 / 80.0))
    dry, damp = (pumped_air(1.0, 1e5, 300.0, ratio) for ratio in (0.0, 1 / 15))
    assert damp / dry == pytest.approx(share, rel=1e-4)


def test_breathing_peaks_at_its_speed() -> None:
    filled = {rpm: volumetric_efficiency(SIX, rpm * RPM) for rpm in range(500, 5000, 10)}
    assert max(filled, key=filled.__getitem__) == 2000
    assert max(filled.values()) == pytest.approx(SIX.breathing)


def test_breathing_is_half_at_its_width() -> None:
    far = SIX.breathing_speed + SIX.breathing_width
    assert volumetric_efficiency(SIX, far) == pytest.approx(SIX.breathing / 2)


def test_equal_pressures_leave_the_breathing_alone() -> None:
    flow = air_demand(SIX, 2000 * RPM, AMBIENT, 300.0, AMBIENT)
    taken = swept_flow(3.1e-3, 2000 * RPM) * AMBIENT / (287.05287 * 300)
    assert flow == pytest.approx(SIX.breathing * taken, rel=1e-12)


@pytest.mark.parametrize("share", [0.3, 0.5, 0.8])
def test_demand_is_that_of_the_ideal_cycle(share: float) -> None:
    # Followed stroke by stroke: clearance gas at exhaust pressure expands (or flows back)
    # until the cylinder is at manifold pressure, exchanging work with it but no heat; the
    # energy balance of the filling, e.g. Heywood 1988, section 5.4, gives the fresh charge.
    gamma, clearance, swept, inlet = 1.35, 1 / 7.5, 1.0, 300.0
    low, high = share * AMBIENT, AMBIENT
    work = low * swept  # on the piston as it draws in
    start = high * clearance / (gamma - 1)
    end = low * (clearance + swept) / (gamma - 1)
    fresh = (end - start + work) * (gamma - 1) / gamma / (287.0 * inlet)
    ideal = low * swept / (287.0 * inlet)
    full = air_demand(SIX, 200.0, low, inlet, low)
    assert air_demand(SIX, 200.0, low, inlet, high) / full == pytest.approx(fresh / ideal)


@given(st.floats(20e3, 105e3), st.floats(40.0, 500.0), st.floats(0.0, 0.08))
def test_manifold_pressure_inverts_the_demand(p: float, speed: float, vapour: float) -> None:
    flow = air_demand(SIX, speed, p, 310.0, AMBIENT, vapour_ratio=vapour)
    back = manifold_pressure(SIX, speed, flow, 310.0, AMBIENT, vapour_ratio=vapour)
    assert back == pytest.approx(p, rel=1e-12)


def test_charge_is_warmer_than_outside() -> None:
    warm = dataclasses.replace(SIX, charge_heating=30.0)
    assert manifold_temperature(warm, 280.0) == 310.0


def test_engine_at_rest_has_no_manifold_pressure() -> None:
    with pytest.raises(RangeError, match="speed must be positive"):
        manifold_pressure(SIX, 0.0, 0.01, 300.0, AMBIENT)


def test_engine_of_impossible_compression_is_refused() -> None:
    with pytest.raises(RangeError, match="compression ratio must be between 6 and 12"):
        dataclasses.replace(SIX, compression_ratio=1.0)
