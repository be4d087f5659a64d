"""Gates: what a driver would notice of film, pump, fire and crankshaft, on both rigs.

The wall film's powers were fitted to gates A to E, so these hold the model to what it was made
for and are no validation; no measured trace of lambda in a carburetted engine was found. Every
bound is judged (J) from what the trade reports: lean off idle, hardly felt at 3000 rpm, a pump
that covers it, rich when the foot lifts. Speeds in rpm, times in s. What is missed stands in
`fuelcircuits.physics.motion.step`.
"""

from collections.abc import Sequence
from itertools import pairwise

import pytest
from fuelcircuits.physics.motion.drive import drive
from fuelcircuits.physics.motion.moving import Controls, Motion
from fuelcircuits.physics.motion.pedal import Leg
from fuelcircuits.physics.motion.start import Start, begun

from tests.physics.motion.journeys import (
    DAY,
    RIGS_BY_NAME,
    RPM,
    car,
    freely,
    tipped,
    warmed,
)

EVERY = pytest.mark.parametrize("name", ["plover", "dunlin"])
SPEEDS = (700, 1000, 1500, 2200, 3000)
STUMBLES = 1.15  # J: lambda above which a driver feels it


def mixtures(run: Sequence[Motion]) -> list[float]:
    """Return lambda of what the cylinders take."""
    return [now.burning.mixture for now in run]


def lean_for(run: Sequence[Motion]) -> float:
    """Return for how long it is lean enough to be felt."""
    return sum(b.time - a.time for a, b in pairwise(run) if b.burning.mixture > STUMBLES)


def dead_pump(name: str, rpm: float) -> list[Motion]:
    return tipped(name, 0.02, 0.5, rpm, pump=False)


@EVERY
def test_a_without_a_pump_it_is_lean_off_idle_and_hardly_at_speed(name: str) -> None:
    peaks = {rpm: max(mixtures(dead_pump(name, rpm))) for rpm in SPEEDS}
    assert 1.45 < peaks[700] < 1.75  # J
    assert peaks[2200] < 1.30  # J
    assert peaks[3000] < 1.25  # J
    assert lean_for(dead_pump(name, 3000)) < 0.1  # J


@EVERY
def test_b_the_lean_spot_shrinks_and_shortens_with_speed(name: str) -> None:
    runs = [dead_pump(name, rpm) for rpm in SPEEDS]
    assert all(max(mixtures(a)) > max(mixtures(b)) for a, b in pairwise(runs[:4]))
    assert all(lean_for(a) > lean_for(b) for a, b in pairwise(runs))


@EVERY
@pytest.mark.parametrize("rpm", [650, 800, 1000, 1500, 2200, 3000])
def test_c_with_its_pump_a_tip_in_keeps_within_what_runs_well(name: str, rpm: float) -> None:
    found = mixtures(tipped(name, 0.02, 0.5, rpm))
    assert min(found) > 0.75  # J
    assert max(found) < STUMBLES


@EVERY
@pytest.mark.parametrize("rpm", [1000, 1500, 2200])
def test_d_so_does_a_small_one(name: str, rpm: float) -> None:
    found = mixtures(tipped(name, 0.02, 0.2, rpm))
    assert min(found) > 0.70  # J
    assert max(found) < STUMBLES


@EVERY
@pytest.mark.parametrize(("pedal", "rpm"), [(0.3, 1500), (0.3, 2500), (0.3, 3500), (0.5, 2500)])
def test_e_a_lifted_foot_makes_it_rich_but_does_not_drown_it(
    name: str, pedal: float, rpm: float
) -> None:
    run = tipped(name, pedal, 0.0, rpm)
    assert 0.45 < min(mixtures(run)) < 0.8  # J
    back = max((now.time for now in run if now.burning.mixture < 0.75), default=0.3) - 0.3
    assert back < 1.6  # J: seconds after the foot began to lift


def gained(run: Sequence[Motion]) -> float:
    """Return the speed gained one second after the foot began to go down [rad/s]."""
    return min(run, key=lambda now: abs(now.time - 1.3)).speed - run[14].speed


def sag(run: Sequence[Motion]) -> float:
    """Return how far the torque falls below that before the pedal moved [N m]."""
    return run[14].burning.torque - min(now.burning.torque for now in run[15:])


def sags_for(run: Sequence[Motion]) -> float:
    """Return for how long the torque stays below that before the pedal moved [s]."""
    before = run[14].burning.torque
    return sum(b.time - a.time for a, b in pairwise(run[14:]) if b.burning.torque < before)


FLOORED = pytest.mark.parametrize(
    ("pedal", "rpm", "extra", "loaded"),
    [(0.0, 690, 1.5, False), (0.03, 800, 8.0, True)],
    ids=["f low gear from idle", "g top gear at 800"],
)


@EVERY
@FLOORED
def test_floored_without_a_pump_it_sags_and_with_it_not(
    name: str, pedal: float, rpm: float, extra: float, loaded: bool
) -> None:
    runs = [
        freely(name, pedal, rpm, pump=pump, extra=extra, loaded=loaded) for pump in (True, False)
    ]
    sound, dead = runs
    assert sag(sound) < 1.0
    assert sag(dead) > 20.0  # J
    assert sags_for(dead) > 0.3  # J
    assert gained(dead) < 0.93 * gained(sound)  # J
    assert min(now.burning.fires for now in dead) < 0.5 < min(now.burning.fires for now in sound)


@EVERY
def test_h_at_3000_nobody_feels_whether_there_is_a_pump(name: str) -> None:
    ends = [
        gained(freely(name, 0.05, 3000, pump=pump, extra=8.0, loaded=True))
        for pump in (True, False)
    ]
    assert ends[1] == pytest.approx(ends[0], abs=10 * RPM)  # J


@EVERY
def test_i_a_cold_wall_wants_more_than_the_pump_has(name: str) -> None:
    cold = {"extra": 8.0, "loaded": True, "coolant": 293.15}
    sound, dead = (freely(name, 0.03, 1000, pump=pump, **cold) for pump in (True, False))
    warm = freely(name, 0.03, 1000, extra=8.0, loaded=True)
    assert max(mixtures(warm)) < max(mixtures(sound)) < 1.3  # J
    assert max(mixtures(dead)) > 1.45  # J
    assert sag(dead) > 10.0 > sag(sound)


@EVERY
def test_j_a_film_of_one_share_and_time_gets_the_trend_wrong(name: str) -> None:
    slow, fast = (
        max(mixtures(tipped(name, 0.02, 0.5, rpm, pump=False, old_film=True)))
        for rpm in (700, 3000)
    )
    assert fast > slow + 0.2


@EVERY
def test_a_hot_engine_fires_within_two_seconds_on_a_dry_wall(name: str) -> None:
    """The pedal left alone; what a driver expects: common practice, no source."""
    whole, key = car(name), Controls(speed=RIGS_BY_NAME[name].hot_soak.crank_speed, starter=True)
    begin = begun(whole, Start.warm(whole.rig, DAY)._replace(running=False))
    run = drive(whole, begin, [Leg(3.0, key, 0.05)], key)
    assert max(now.time for now in run if now.burning.fires < 0.5) < 2.0


@EVERY
@pytest.mark.parametrize("celsius", [-20.0, -10.0, 0.0, 15.0, 30.0])
def test_a_cold_engine_starts_and_runs_until_it_is_warm(name: str, celsius: float) -> None:
    run = [now for now in warmed(name, 273.15 + celsius) if now.time > 4.5]
    assert all(now.running for now in run)
    assert all(0.65 < now.burning.burnt < 1.25 for now in run)  # J: neither flooded nor starved
    assert min(now.burning.fires for now in run) > 0.85  # J
    assert run[-1].coolant - run[0].coolant > 25.0
