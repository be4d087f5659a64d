"""How a drive begins: cold, warm, and after a soak of no length and of some."""

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.moving import Controls
from fuelcircuits.physics.motion.soak_run import soak_run
from fuelcircuits.physics.motion.start import Start, begun, set_up
from fuelcircuits.physics.openings.plate import OPEN

from tests.places import RIGS

PLOVER, DAY = read_rig(RIGS / "plover.toml"), Weather.at(0.0, 298.15)
SOAK = soak_run(PLOVER, DAY, Fuel(), [0.0, 900.0])


def test_a_cold_engine_is_as_warm_as_the_air_and_dry() -> None:
    cold = Start.cold(DAY)
    assert cold.coolant == cold.coil == cold.bowl == DAY.temperature
    assert cold.puddle == cold.lost_share == 0
    assert not cold.running


def test_a_soak_of_no_length_leaves_a_warm_engine_as_it_was() -> None:
    warm, after = Start.warm(PLOVER, DAY), Start.after(PLOVER, SOAK, 0)
    assert after[:3] == pytest.approx(warm[:3])
    assert warm.running
    assert not after.running
    bowl = PLOVER.float_bowl
    assert after.level == pytest.approx(bowl.depth - bowl.specified_level)


def test_a_soak_cools_the_coil_and_boils_the_bowl_down() -> None:
    warm, after = Start.warm(PLOVER, DAY), Start.after(PLOVER, SOAK)
    assert DAY.temperature < after.coil < warm.coil
    assert after.lost_share == pytest.approx(
        SOAK.boiled[-1] / (SOAK.boiled[-1] + SOAK.fuel_left[-1])
    )
    level = PLOVER.float_bowl.depth - PLOVER.float_bowl.specified_level
    assert after.level == pytest.approx(level * SOAK.fuel_left[-1] / SOAK.fuel_left[0])


def test_an_engine_that_stands_has_its_choke_shut_and_its_cam_set() -> None:
    frost = Weather.at(0.0, 263.15)
    car = set_up(PLOVER, frost)
    now = begun(car, Start.cold(frost))
    assert now.speed == 0.0
    assert not now.running
    assert now.choke == pytest.approx(PLOVER.air_path.choke_closed_angle)
    assert now.throttle == pytest.approx(car.stop + PLOVER.choke.cam_openings[0])
    assert now.vacuum == now.film == now.puddle == now.charge == 0.0


def test_a_running_engine_begins_in_the_steady_state() -> None:
    car = set_up(PLOVER, DAY)
    now = begun(car, Start.warm(PLOVER, DAY), Controls(0.1, 200.0))
    burnt = now.burning
    assert now.choke == OPEN
    assert burnt.fuel == pytest.approx(now.metered)
    assert burnt.mixture == pytest.approx(now.network.mixture)
    assert now.charge / now.air.held == pytest.approx(now.network.fuel_air_ratio)
    assert now.running


def test_the_stop_is_set_on_a_standard_day_whatever_the_weather() -> None:
    frost, heat = (set_up(PLOVER, Weather.at(0.0, each)).stop for each in (253.15, 313.15))
    assert frost == heat
