"""The choke in motion: it comes to rest where its torques balance, and cam and timer follow."""

from itertools import pairwise

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.choke_plate import plate_angle
from fuelcircuits.physics.circuits.cold_start import ColdStart
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.hinge import LIFTED, cam_step, enriched, plate_step
from fuelcircuits.physics.openings.plate import OPEN

from tests.places import RIGS

RIG = read_rig(RIGS / "plover.toml")
WEATHER, CLOSED = Weather.at(0.0, 273.15), RIG.air_path.choke_closed_angle


def rested(begin: float, duration: float, steps: int, **given: float) -> list[float]:
    angles = [begin]
    for _ in range(steps):
        angles.append(
            plate_step(RIG.choke, RIG.air_path, WEATHER, angles[-1], duration=duration, **given)
        )
    return angles


@pytest.mark.parametrize("duration", [0.02, 1.0])
@pytest.mark.parametrize("begin", [CLOSED, 0.6, OPEN])
@pytest.mark.parametrize(
    ("coil", "flow", "vacuum"), [(263.15, 0.012, 0.0), (283.15, 0.008, 60e3), (300.0, 0.02, 50e3)]
)
def test_the_plate_comes_to_rest_where_torques_balance(
    duration: float, begin: float, coil: float, flow: float, vacuum: float
) -> None:
    given = {"coil": coil, "air_flow": flow, "vacuum": vacuum, "throttle": 0.25}
    rest = plate_angle(
        RIG.choke, RIG.air_path, WEATHER, coil, flow, vacuum=vacuum, throttle_angle=0.25
    )
    assert rested(begin, duration, 200, **given)[-1] == pytest.approx(rest, abs=1e-6)


def test_the_plate_takes_about_a_tenth_of_a_second() -> None:
    given = {"coil": 283.15, "air_flow": 0.008, "vacuum": 60e3, "throttle": 0.25}
    angles = rested(CLOSED, 0.005, 200, **given)
    assert all(before <= after for before, after in pairwise(angles))
    half = next(at for at, angle in enumerate(angles) if angle > (CLOSED + angles[-1]) / 2)
    assert 0.03 < 0.005 * half < 0.3


def test_the_unloader_lifts_the_plate_at_once() -> None:
    given = {"coil": 263.15, "air_flow": 0.0, "vacuum": 0.0, "throttle": OPEN}
    assert rested(CLOSED, 0.02, 1, **given)[-1] > CLOSED + 0.3


def test_the_cam_falls_only_when_the_pedal_lets_it() -> None:
    first, second = RIG.choke.cam_openings[:2]
    opened = 0.5 * (RIG.choke.cam_edges[0] + RIG.choke.cam_edges[1])
    assert cam_step(RIG.choke, first, 0.0, opened) == first
    assert cam_step(RIG.choke, first, first + 0.5 * LIFTED, opened) == first
    assert cam_step(RIG.choke, first, first + 2 * LIFTED, opened) == second
    assert cam_step(RIG.choke, first, 1.0, OPEN) == 0.0


def test_the_timer_shuts_idle_air_for_a_cold_engine_and_only_while_it_lasts() -> None:
    parts = ColdStart(timer=30.0)
    assert enriched(parts, 273.15, 5.0, vacuum=60e3) == 1.0
    assert enriched(parts, 273.15, -1.0, vacuum=60e3) == 1.0
    assert enriched(parts, 273.15, 31.0, vacuum=60e3) == 0.0
    assert enriched(parts, 350.0, 5.0, vacuum=60e3) == 0.0
    assert enriched(None, 273.15, 5.0, vacuum=60e3) == 0.0
