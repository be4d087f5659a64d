"""A breath taken again: only where nothing has moved, and with books that close."""

from typing import Any

import pytest
from fuelcircuits.physics.motion.moving import Controls, Motion
from fuelcircuits.physics.motion.start import Start, begun
from fuelcircuits.physics.motion.step import stepped
from fuelcircuits.physics.motion.stillness import MOVES, unmoved
from fuelcircuits.physics.network.settings import Settings

from tests.physics.motion.journeys import DAY, RPM, car

EVERY = pytest.mark.parametrize("name", ["plover", "dunlin"])
SPEED = 1200 * RPM
HELD = Controls(0.05, SPEED)


def run_of(name: str, *, drawn: bool) -> list[Motion]:
    """Return ten seconds at a held speed, the pedal moved at the beginning."""
    whole = car(name)
    run = [begun(whole, Start.warm(whole.rig, DAY), Controls(0.03, SPEED))]
    for _ in range(100):
        run.append(stepped(whole, run[-1], HELD, 0.1, drawn=drawn))
    return run


@EVERY
def test_at_a_held_speed_the_air_is_taken_again(name: str) -> None:
    run = run_of(name, drawn=True)
    solved = {id(now.network) for now in run}
    assert 4 < len(solved) < 40


@EVERY
def test_what_is_drawn_is_what_is_true(name: str) -> None:
    drawn, true = (
        [now.burning.mixture for now in run_of(name, drawn=each)] for each in (True, False)
    )
    assert drawn == pytest.approx(true, rel=3e-3)


@EVERY
def test_books_of_air_and_fuel_close_where_the_air_is_taken_again(name: str) -> None:
    run = run_of(name, drawn=True)
    first, last = run[0], run[-1]
    books, stored = last.books, last.air.held - first.air.held
    assert books.air_in == pytest.approx(books.air_taken + stored, rel=1e-5)
    grown = last.film - first.film + last.charge - first.charge
    assert books.metered + books.purged == pytest.approx(books.drawn + grown, rel=1e-6)


@EVERY
@pytest.mark.parametrize(
    "moved",
    [{"speed": 1.01 * SPEED}, {"throttle": 1e-3}, {"purge": 1e-3}, {"settings": None}],
    ids=str,
)
def test_whatever_moves_is_noticed(name: str, moved: dict[str, Any]) -> None:
    breath = run_of(name, drawn=True)[-1].air
    asked: dict[str, Any] = {
        "settings": breath.settings,
        "speed": breath.state.speed,
        "throttle": breath.state.throttle_angle,
        "purge": breath.purge,
    }
    assert unmoved(breath, **asked)
    if "settings" in moved:
        assert not unmoved(breath._replace(settings=None), **asked)
        assert not unmoved(breath._replace(inflow=1.1 * breath.taken), **asked)
        return
    for thing, by in moved.items():
        asked[thing] = by if thing == "speed" else asked[thing] + by
    assert not unmoved(breath, **asked)


@pytest.mark.parametrize("thing", MOVES)
def test_every_setting_counts(thing: str) -> None:
    breath = run_of("plover", drawn=True)[-1].air
    own = vars(breath.settings)
    there = -1.0 if thing in ("ignition", "choke_angle") else 1.0
    moved = Settings(**own | {thing: own[thing] + there * (2.0 * MOVES[thing] or 1.0)})
    state = breath.state
    assert not unmoved(breath, moved, state.speed, state.throttle_angle, breath.purge)
