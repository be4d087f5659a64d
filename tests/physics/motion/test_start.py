"""How a drive begins: cold, warm, and after a soak of no length and of some."""

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.soak_run import soak_run
from fuelcircuits.physics.motion.start import Start

from tests.places import RIGS

PLOVER, DAY = read_rig(RIGS / "plover.toml"), Weather.at(0.0, 298.15)
SOAK = soak_run(PLOVER, DAY, Fuel(), [0.0, 900.0])


def test_a_cold_engine_is_as_warm_as_the_air_and_dry() -> None:
    cold = Start.cold(DAY)
    assert cold.coolant == cold.coil == cold.bowl == DAY.temperature
    assert cold.film == cold.lost_share == 0


def test_a_soak_of_no_length_leaves_a_warm_engine_as_it_was() -> None:
    warm, after = Start.warm(PLOVER, DAY), Start.after(PLOVER, DAY, SOAK, 0)
    assert after[:4] == pytest.approx(warm[:4])
    bowl = PLOVER.float_bowl
    assert after.level == pytest.approx(bowl.depth - bowl.specified_level)


def test_a_soak_cools_the_coil_and_boils_the_bowl_down() -> None:
    warm, after = Start.warm(PLOVER, DAY), Start.after(PLOVER, DAY, SOAK)
    assert DAY.temperature < after.coil < warm.coil
    assert after.lost_share == pytest.approx(
        SOAK.boiled[-1] / (SOAK.boiled[-1] + SOAK.fuel_left[-1])
    )
    level = PLOVER.float_bowl.depth - PLOVER.float_bowl.specified_level
    assert after.level == pytest.approx(level * SOAK.fuel_left[-1] / SOAK.fuel_left[0])
