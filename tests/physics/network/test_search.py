"""Where Newton's method goes astray from a guess: the slower ways, and what is said at the end."""

from collections.abc import Callable
from typing import Any

import pytest
from fuelcircuits import faults
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import search
from fuelcircuits.physics.network.balance import Balance, Closing
from fuelcircuits.physics.network.guess import first_guess, still_guess
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.settings import WARM, Settings
from fuelcircuits.physics.network.state import state_of
from fuelcircuits.physics.numerics.continuation import followed, settled
from fuelcircuits.physics.numerics.newton import GOOD, Found, newton

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
AIR, PETROL = Weather.at(temperature=293.15), Fuel()


def blocked() -> Balance:
    """Return a carburettor whose main jets are blocked."""
    bad = faults.apply(PLOVER, "blocked-main-jet", 1.0)
    of = pose(bad, AIR, PETROL, faults.settings(PLOVER, "blocked-main-jet", 1.0))
    return Balance(of, place(of, 71.312, 0.80531))


def choked() -> Balance:
    """Return a carburettor with its choke plate almost shut and the throttle wide open."""
    of = pose(DUNLIN, Weather.at(temperature=280.0), Fuel(0.1), Settings(choke_angle=0.41))
    return Balance(of, place(of, 329.35, 1.4565))


def plain() -> Balance:
    """Return a carburettor as on its card."""
    of = pose(PLOVER, AIR, PETROL, WARM)
    return Balance(of, place(of, 200.0, 0.4))


HARD = pytest.mark.parametrize("hard", [blocked, choked, plain])


def slowed(balance: Balance, begin: list[float], damping: float) -> Found[Any] | None:
    slow = settled(balance, begin, damping)
    assert slow is not None
    return newton(balance, slow.unknowns)


@pytest.mark.parametrize("hard", [choked, plain])
def test_slower_ways_come_to_one_answer(hard: Callable[[], Balance]) -> None:
    balance = hard()
    guess = first_guess(balance.of, balance.at)
    row, damped = followed(balance, guess), slowed(balance, guess, 30.0)
    assert row is not None
    assert damped is not None
    assert max(row.error, damped.error) <= GOOD
    assert row.unknowns == pytest.approx(damped.unknowns, rel=1e-9)


@HARD
def test_answer_balances(hard: Callable[[], Balance]) -> None:
    balance = hard()
    state = search.balanced(balance)
    left = balance.left(state.unknowns)
    assert all(abs(a) <= GOOD * b for a, b in zip(left.level, left.measure, strict=True))


@pytest.mark.parametrize("failing", [1, 2, 3])
def test_what_comes_later_finds_what_fails_before(
    failing: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    balance, asked = plain(), list[int]()

    def failed(*arguments: Any, **how: Any) -> Any:
        asked.append(0)
        return None if len(asked) <= failing else newton(*arguments, **how)

    expected = search.balanced(balance).unknowns
    monkeypatch.setattr(search, "newton", failed)
    assert search.balanced(balance).unknowns == pytest.approx(expected, rel=1e-9)
    assert len(asked) >= failing


def test_what_does_not_balance_is_named_with_its_place() -> None:
    of = pose(PLOVER, AIR, PETROL, WARM)
    balance = Balance(of, place(of, 210.0, 0.4), Closing("angle", "air flow", 0.5))
    with pytest.raises(ConvergenceError, match=r"must balance, got \d.* left over at 210 rad/s"):
        search.balanced(balance)


def test_balances_that_are_no_numbers_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("newton", "followed", "settled"):
        monkeypatch.setattr(search, name, lambda *_, **__: None)
    with pytest.raises(ConvergenceError, match=r"got no number at 200 rad/s and 0\.4 rad"):
        search.balanced(plain())


def test_nothing_flows_in_the_other_guess() -> None:
    balance = plain()
    guess = first_guess(balance.of, balance.at)
    still = still_guess(guess)
    fuel, more = (
        state_of(balance.of, each, balance.left(each).flowing, None).flows.main_jet[0]
        for each in (still, guess)
    )
    assert still[:5] == guess[:5]
    assert abs(fuel) < 0.1 * more
