"""Choke: balances by hand and by scipy, and the way the trade says it goes."""

from dataclasses import replace
from itertools import pairwise
from math import cos, exp, pi

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.choke import (
    Choke,
    coil_step,
    coil_torque,
    fast_idle,
    pull_off,
    rest_angle,
    unloader,
)
from fuelcircuits.physics.circuits.choke_plate import plate_angle, plate_torque
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.plate import OPEN
from scipy import optimize

from tests.places import RIGS

RIG = read_rig(RIGS / "plover.toml")
CHOKE, PATH, CLOSED = RIG.choke, RIG.air_path, RIG.air_path.choke_closed_angle
FREE = replace(CHOKE, pull_off_bore=0.0, unloader_ratio=0.0)
WEATHER = Weather.at(0.0, 273.15)
COLD, MILD, HOT = 263.15, 303.15, 380.0


def test_at_its_set_temperature_the_coil_just_shuts_the_plate() -> None:
    assert rest_angle(CHOKE, CHOKE.set_temperature, CLOSED) == pytest.approx(CLOSED)
    assert coil_torque(CHOKE, CHOKE.set_temperature, CLOSED, CLOSED) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize(("coil", "angle"), [(COLD, CLOSED), (HOT, OPEN)])
def test_without_air_the_plate_lies_against_a_stop_when_cold_or_hot(
    coil: float, angle: float
) -> None:
    assert plate_angle(FREE, PATH, WEATHER, coil) == pytest.approx(angle)


def test_without_air_a_mild_plate_stands_where_the_coil_rests() -> None:
    resting = rest_angle(CHOKE, MILD, CLOSED)
    assert CLOSED < resting < OPEN
    assert plate_angle(FREE, PATH, WEATHER, MILD) == pytest.approx(resting)


def test_the_angle_agrees_with_scipy() -> None:
    def torque(angle: float) -> float:
        push = plate_torque(FREE, PATH, WEATHER, 0.012, angle)
        return coil_torque(FREE, COLD, angle, CLOSED) + push

    theirs = optimize.brentq(torque, CLOSED, OPEN, xtol=1e-13)
    assert plate_angle(FREE, PATH, WEATHER, COLD, 0.012) == pytest.approx(theirs, rel=1e-10)


def test_the_air_pushes_with_the_drop_times_the_area_times_the_offset() -> None:
    # First principles, closed plate: only its leak passes air.
    jets, horn = PATH.horn_discharge * PATH.choke_leak, pi / 4 * PATH.horn_bore**2
    area = jets / (1 - jets / horn)  # first principles: Borda and Carnot
    drop = (0.002 / area) ** 2 / (2 * WEATHER.density)
    plate = pi / 4 * PATH.horn_bore**2 / cos(CLOSED)
    torque = plate_torque(CHOKE, PATH, WEATHER, 0.002, CLOSED)
    assert torque == pytest.approx(drop * plate * CHOKE.plate_offset, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "values"),
    [("coil_temperature", linspace(255, 330, 9)), ("air_flow", linspace(0.002, 0.05, 9))],
)
def test_heat_and_air_open_the_plate(name: str, values: list[float]) -> None:
    given = {"coil_temperature": 280.0, "air_flow": 0.01}
    angles = [plate_angle(FREE, PATH, WEATHER, **given | {name: value}) for value in values]
    assert all(before < after for before, after in pairwise(angles))


@pytest.mark.parametrize(
    "coil", [replace(FREE, slack=0.3), replace(FREE, set_temperature=FREE.set_temperature - 10)]
)
def test_a_slack_or_lean_set_coil_opens_earlier(coil: Choke) -> None:
    # Common practice, no source.
    before = plate_angle(FREE, PATH, WEATHER, 280.0, 0.005)
    assert plate_angle(coil, PATH, WEATHER, 280.0, 0.005) > before + 0.02


def test_the_pull_off_cracks_the_plate_once_the_engine_runs() -> None:
    stopped, running = (
        plate_angle(CHOKE, PATH, WEATHER, COLD, 0.004, vacuum=vacuum) for vacuum in (0.0, 55e3)
    )
    assert CHOKE.pull_off_angle > running > stopped + 0.1


def test_a_coil_bends_the_link_where_torques_balance() -> None:
    # Two springs in line, by hand; no air.
    coil = FREE.modulus * FREE.coil_width * FREE.coil_thickness**3 / 12 / FREE.coil_length
    rest, link = rest_angle(CHOKE, COLD, CLOSED), CHOKE.pull_off_spring
    between = (coil * rest + link * CHOKE.pull_off_angle) / (coil + link)
    assert plate_angle(CHOKE, PATH, WEATHER, COLD, vacuum=70e3) == pytest.approx(between)


def test_a_cold_coil_leaves_the_pulled_off_plate_less_open_than_a_mild_one() -> None:
    # Common practice, no source.
    coils = [253.15, 263.15, 273.15, 283.15, 293.15]
    angles = [plate_angle(CHOKE, PATH, WEATHER, coil, vacuum=60e3) for coil in coils]
    assert all(before + 0.03 < after for before, after in pairwise(angles))


def test_a_link_without_a_spring_holds_the_plate_at_its_stop() -> None:
    stiff = replace(CHOKE, pull_off_spring=100.0)
    angle = plate_angle(stiff, PATH, WEATHER, COLD, vacuum=60e3)
    assert angle == pytest.approx(CHOKE.pull_off_angle, abs=1e-3)


def test_a_torn_diaphragm_leaves_the_plate_shut_and_the_mixture_rich() -> None:
    torn = replace(CHOKE, pull_off_leak=1.0)
    assert pull_off(torn, 55e3, CLOSED) == pytest.approx(CLOSED)
    whole = plate_angle(CHOKE, PATH, WEATHER, COLD, 0.004, vacuum=55e3)
    assert plate_angle(torn, PATH, WEATHER, COLD, 0.004, vacuum=55e3) < whole - 0.1


def test_half_the_stroke_gives_half_the_opening() -> None:
    # Force balance by hand: vacuum for half the spring's travel.
    area = pi / 4 * CHOKE.pull_off_bore**2
    half = (CHOKE.pull_off_force + CHOKE.pull_off_rate * CHOKE.pull_off_stroke / 2) / area
    middle = (CLOSED + CHOKE.pull_off_angle) / 2
    assert pull_off(CHOKE, half, CLOSED) == pytest.approx(middle)


def test_the_unloader_opens_the_plate_with_the_pedal_on_the_floor() -> None:
    assert unloader(CHOKE, 0.3, CLOSED) == CLOSED
    assert plate_angle(CHOKE, PATH, WEATHER, COLD, throttle_angle=1.5) > CLOSED + 0.3


@pytest.mark.parametrize("name", ["plover", "dunlin"])
def test_the_unloader_opens_wider_than_the_pull_off(name: str) -> None:
    # Common practice, no source: a flooded engine wants more air than one that has just fired.
    rig = read_rig(RIGS / f"{name}.toml")
    floored = unloader(rig.choke, OPEN, rig.air_path.choke_closed_angle)
    assert floored > rig.choke.pull_off_angle + 0.05


def test_the_cam_steps_down_as_the_plate_opens() -> None:
    openings = [fast_idle(CHOKE, angle) for angle in linspace(CLOSED, OPEN, 50)]
    assert all(before >= after for before, after in pairwise(openings))
    assert set(openings) == {0.0, *CHOKE.cam_openings}
    assert openings[0] == max(CHOKE.cam_openings)


def test_warm_up_is_the_exponential_and_a_dead_heater_never_opens_the_plate() -> None:
    after = coil_step(CHOKE, 263.15, 263.15, CHOKE.heat_time)
    assert after == pytest.approx(263.15 + CHOKE.heat_rise * (1 - exp(-1)))
    assert coil_step(replace(CHOKE, heat_rise=0.0), 263.15, 263.15, 1e4) == pytest.approx(263.15)


def test_two_spans_of_warm_up_equal_one() -> None:
    half = coil_step(CHOKE, 270.0, 280.0, 30.0)
    assert coil_step(CHOKE, half, 280.0, 30.0) == pytest.approx(
        coil_step(CHOKE, 270.0, 280.0, 60.0)
    )


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ({"cam_edges": (0.5, 0.3, 0.9)}, "cam edges must rise"),
        ({"cam_openings": (0.1,)}, "as many as cam openings"),
        ({"flexivity": 1.0}, "flexivity must be between"),
    ],
)
def test_an_impossible_choke_is_refused(change: dict[str, object], rule: str) -> None:
    with pytest.raises(RangeError, match=rule):
        replace(CHOKE, **change)  # type: ignore[arg-type]
