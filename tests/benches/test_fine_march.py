"""Curves of the marched benches against the same runs marched finely, all their air worked out."""

from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from fuelcircuits.benches import open_bench
from fuelcircuits.benches.choke import found as choke
from fuelcircuits.benches.cold_start import found as cold_start
from fuelcircuits.benches.hot_soak import found as hot_soak
from fuelcircuits.benches.pump import found as pump
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.motion import restart
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.step import stepped

from tests.places import RIGS

FINER = 4
MARCHES: Mapping[str, tuple[Any, Mapping[str, float]]] = {
    "choke": (choke, {"mixture": 0.02, "burns": 0.05, "share": 0.015, "plate": 0.03}),
    "cold_start": (cold_start, {"mixture": 0.01, "burns": 0.015, "fires": 0.02}),
    "pump": (pump, {"helped.mixture": 0.02, "bare.mixture": 0.03, "helped.film": 10e-6}),
    "hot_soak": (hot_soak, {"cranking": 0.1, "equivalence": 0.1, "soaked.bowl": 0.2}),
}
"""How far the eye lets each curve of a bench be off: lambda and shares [1], rad, kg, s, K (judged).

What burns just after a cold engine has fired, and a mixture with no shot, rise steeply; a plate is
a step behind where the cam falls."""
FAR: Mapping[str, Mapping[str, float]] = {
    "choke": {"outside": 288.15, "speed": 150.0},
    "cold_start": {"outside": 278.15, "timer": 20.0},
    "pump": {"coolant": 303.15, "opened": 0.3},
    "hot_soak": {"outside": 288.15, "reid": 70e3},
}
"""Settings far from those at the start."""


def finely(car: Car, now: Motion, controls: Controls, duration: float, **_: Any) -> Motion:
    """Take a step in quarters, the pedal moving evenly, and the network solved in each.

    An engine counts its time from the end of the whole step in which it has caught.
    """
    begin, ran = now.pedal, now.running
    for part in range(1, FINER + 1):
        pedal = begin + (controls.pedal - begin) * part / FINER
        now = stepped(car, now, controls._replace(pedal=pedal), duration / FINER)
    return now if ran or not now.running else now._replace(ran=0.0)


@pytest.fixture
def fine(monkeypatch: pytest.MonkeyPatch) -> Iterator[pytest.MonkeyPatch]:
    """Forget what has been marched, before and after."""
    known = choke._near, pump._alone, pump._bare, hot_soak._start, hot_soak._run
    for each in known:
        each.cache_clear()
    yield monkeypatch
    for each in known:
        each.cache_clear()


def curve(found: Any, name: str) -> list[float]:
    """Return a curve by its name, a point between that of the part and its own."""
    for part in name.split("."):
        found = getattr(found, part)
    return list(found)


@pytest.mark.parametrize("far", [False, True], ids=["start", "far"])
@pytest.mark.parametrize("rig", ["plover", "dunlin"])
@pytest.mark.parametrize("stem", MARCHES)
def test_a_curve_is_where_a_fine_march_has_it(
    stem: str, rig: str, far: bool, fine: pytest.MonkeyPatch
) -> None:
    bench: Any = open_bench(stem, read_rig(RIGS / f"{rig}.toml"))
    values = bench.values() | (FAR[stem] if far else {})
    module, eye = MARCHES[stem]
    drawn = module.whole(bench.card, values)
    for each in (hot_soak._start, hot_soak._run, pump._alone, pump._bare):
        each.cache_clear()
    fine.setattr(restart if stem == "hot_soak" else module, "stepped", finely)
    fine.setattr(restart, "_span", lambda _passed: 0.1)
    fine.setattr(hot_soak, "DRAWN", 1e-7)
    true = module.whole(bench.card, values)
    for name, most in eye.items():
        assert curve(drawn, name) == pytest.approx(curve(true, name), abs=most), name
