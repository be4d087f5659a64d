"""Where an engine idles on its stop hangs on nothing that was solved before."""

from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.idling import FALLING, idling
from fuelcircuits.diagnosis.subject import FULL_LOAD, IDLE, Subject, Warmed, warmed
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.newton import GOOD

from tests.places import RIGS

WRONG: list[dict[str, dict[str, float]]] = [
    {"engine": {"spark_late": 0.1}},
    {"engine": {"dead_cylinders": 0.6}},
    {"engine": {"recirculation": 2e-6}},
    {"air_path": {"hose_leak": 2e-6}},
    {"low_speed": {"screw_turns": 1.5}, "engine": {"spark_late": -0.1}},
]


@cache
def stand() -> Warmed:
    return warmed(read_rig(RIGS / "plover.toml"), Weather.at(), Fuel())


def made(wrong: dict[str, dict[str, float]]) -> dict[str, Any]:
    """Return the sections of a rig with something wrong about them."""
    rig = stand().rig
    return {name: replace(getattr(rig, name), **entries) for name, entries in wrong.items()}


def neighbour(*, sharp: bool) -> Subject:
    """Return the car of the card, with more of it solved than any reading asks for."""
    sound = Subject(stand(), stand().rig, sharp=sharp)
    for share in (*FALLING, 1.02, 0.97):
        sound.on_stop.at(share * stand().states[IDLE].speed)
    sound.running(FULL_LOAD)
    return sound


@pytest.mark.parametrize("sharp", [False, True])
@pytest.mark.parametrize("wrong", WRONG)
def test_a_reading_is_the_same_wherever_its_search_starts(
    wrong: dict[str, dict[str, float]], sharp: bool
) -> None:
    # The bound is what a balance may have left over, and a torque's share in it.
    alone = Subject(stand(), replace(stand().rig, **made(wrong)))
    beside = neighbour(sharp=sharp).changed(**made(wrong))
    for name in ("free-idle", "free-vacuum", "one-cylinder-out", "held-vacuum", "pull"):
        check = find(name)
        assert check.read(beside) == pytest.approx(check.read(alone), rel=10 * GOOD)


@pytest.mark.parametrize("wrong", WRONG)
def test_on_its_stop_a_car_is_in_the_state_that_a_search_from_nowhere_finds(
    wrong: dict[str, dict[str, float]],
) -> None:
    car = neighbour(sharp=True).changed(**made(wrong))
    settings = replace(car.settings, bowl_level=car._level(IDLE))
    where = car.rig, stand().weather, stand().fuel
    for share in (1.0, 0.95, 0.97, 1.3):
        speed = share * stand().states[IDLE].speed
        cold = solving.solve(*where, speed, stand().stop, settings=settings)
        assert car.on_stop.at(speed).unknowns == pytest.approx(cold.unknowns, rel=10 * GOOD)


def test_a_state_is_solved_once_and_none_again_with_a_cylinder_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked, solve = list[float](), solving.solve

    def counted(*where: Any, **how: Any) -> State:
        asked.append(where[3])
        return solve(*where, **how)

    monkeypatch.setattr(solving, "solve", counted)
    car = Subject(stand(), stand().rig)
    assert find("one-cylinder-out").read(car) > 0.0
    assert asked
    assert len(set(asked)) == len(asked)


def test_an_engine_idles_where_its_torque_is_spent() -> None:
    # First principles: it neither gains nor loses; beyond, it loses, and short of it, it gains.
    assert idling(lambda speed: 80.0 - speed, 78.0) == pytest.approx(80.0, rel=1e-5)
    assert idling(lambda speed: 70.0 - speed, 78.0) == pytest.approx(70.0, rel=1e-5)
    assert idling(lambda speed: 50.0 - speed, 78.0) is None
    assert idling(lambda speed: 500.0 - speed, 78.0) is None
