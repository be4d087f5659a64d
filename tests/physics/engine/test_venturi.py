"""Main venturi and booster: Bernoulli, the textbook's limit, and what comes back below."""

import dataclasses
from math import pi, sqrt

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.engine.venturi import (
    booster_gain,
    booster_pressure,
    depression,
    throat_velocity,
    throttle_pressure,
    venturi_area,
    venturi_pressure,
)
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.openings.gas_flow import mass_flow

SEA = Weather.at(0.0)
PATH = AirPath(
    barrels=2,
    cleaner_area=2.6e-3,
    horn_bore=56e-3,
    choke_shaft=6e-3,
    choke_closed_angle=0.2,
    choke_leak=40e-6,
    venturi_bore=25.5e-3,
    booster_outside=11e-3,
    booster_throat=6.5e-3,
    booster_exit=9e-3,
    throttle_bore=32.5e-3,
    throttle_shaft=7.9e-3,
    throttle_closed_angle=0.17,
)


def passed(throat_pressure: float) -> float:
    """Return the air that the venturis pass from the outside to a pressure in the throat."""
    area, gas = venturi_area(PATH), SEA.gas_constant
    return mass_flow(area, SEA.pressure, throat_pressure, SEA.temperature, gas_constant=gas)


def test_gain_is_bernoullis_with_a_poor_diffuser() -> None:
    # Head in the throat 1, at the exit (d_t/d_e)^4; three quarters of the fall comes back.
    exit_head = (6.5 / 9) ** 4
    exit_pressure = -1 + 0.75 * (1 - exit_head)  # from a throat at -1
    assert booster_gain(PATH) == pytest.approx(-1 / exit_pressure, rel=1e-12)


def test_booster_that_does_not_widen_gains_nothing() -> None:
    assert booster_gain(dataclasses.replace(PATH, booster_exit=6.5e-3)) == pytest.approx(1.0)


def test_perfect_diffuser_gains_the_square_of_its_areas() -> None:
    # With no loss the throat's head over the exit's is the area ratio squared; 0.95 is the
    # card's limit, so the gain is a little less.
    perfect = dataclasses.replace(PATH, booster_recovery=0.95)
    assert 0.8 * (9 / 6.5) ** 4 < booster_gain(perfect) < (9 / 6.5) ** 4


def test_small_flow_is_the_textbooks_depression() -> None:
    drop = SEA.pressure - venturi_pressure(PATH, SEA.pressure, 0.01, SEA)
    textbook = depression(0.01, venturi_area(PATH), SEA.density)
    assert drop == pytest.approx(textbook, rel=1e-3)


def test_area_is_the_ring_and_the_booster_each_with_its_own_drop() -> None:
    drop, gain = 100.0, booster_gain(PATH)
    ring = pi / 4 * (25.5e-3**2 - 11e-3**2)
    throat = pi / 4 * 6.5e-3**2
    speeds = sqrt(2 * drop / SEA.density), sqrt(2 * gain * drop / SEA.density)
    flow = 2 * 0.9 * SEA.density * (ring * speeds[0] + throat * speeds[1])
    assert passed(SEA.pressure - drop) == pytest.approx(flow, rel=1e-3)


@pytest.mark.parametrize("flow", [1e-3, 0.02, 0.08])
def test_pressure_inverts_the_flow(flow: float) -> None:
    throat = venturi_pressure(PATH, SEA.pressure, flow, SEA)
    assert passed(throat) == pytest.approx(flow, rel=1e-9)


def test_booster_lies_below_the_venturi_by_its_gain() -> None:
    booster = booster_pressure(PATH, SEA.pressure, SEA.pressure - 100.0)
    assert SEA.pressure - booster == pytest.approx(100 * booster_gain(PATH), rel=1e-3)


def test_most_of_the_depression_comes_back_below() -> None:
    below = throttle_pressure(PATH, SEA.pressure, SEA.pressure - 4000.0)
    assert SEA.pressure - below == pytest.approx(1000.0)


def test_depression_rises_as_the_square_of_the_flow() -> None:
    drops = [SEA.pressure - venturi_pressure(PATH, SEA.pressure, x, SEA) for x in (0.01, 0.02)]
    assert drops[1] / drops[0] == pytest.approx(4.0, rel=0.01)


def test_no_vacuum_draws_air_faster_than_its_heat_allows() -> None:
    # First principles: the square root of 2 cp T, 776 m/s at 300 K.
    assert throat_velocity(0.0, 300.0) == pytest.approx(776, abs=0.5)


def test_air_is_not_drawn_by_a_higher_pressure() -> None:
    with pytest.raises(RangeError, match="pressure ratio must be between 0 and 1"):
        throat_velocity(1.01, 300.0)
