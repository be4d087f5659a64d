"""A step of everything: books that close on any journey, and what a driver would notice."""

from collections.abc import Callable, Mapping
from itertools import pairwise

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.matter.fuel import density
from fuelcircuits.physics.motion.moving import Car, Controls, Motion, chamber_fuel
from fuelcircuits.physics.motion.start import Start, begun
from fuelcircuits.physics.motion.step import stepped
from fuelcircuits.physics.network.rig import ABSENT
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import solve

from tests.physics.motion.journeys import DAY, RPM, car, cranked, freely, tipped, town

NAMES = ("plover", "dunlin")
JOURNEYS: Mapping[str, Callable[[str], list[Motion]]] = {
    "tip-in": lambda name: tipped(name, 0.02, 0.5, 1000),
    "lift-off": lambda name: tipped(name, 0.5, 0.0, 2500),
    "floored": lambda name: freely(name, 0.03, 800, extra=8.0, loaded=True),
    "frost": lambda name: cranked(name, 263.15),
    "hot": lambda name: cranked(name, 303.15, soaked=900.0),
    "town": town,
}
EVERY = pytest.mark.parametrize("name", NAMES)
EACH = pytest.mark.parametrize("journey", JOURNEYS)


def run_of(name: str, journey: str) -> tuple[Car, list[Motion]]:
    outside = {"frost": 263.15, "hot": 303.15}.get(journey, 298.15)
    return car(name, outside=outside), JOURNEYS[journey](name)


@EVERY
@EACH
def test_air_in_is_air_stored_and_air_out(name: str, journey: str) -> None:
    _, run = run_of(name, journey)
    first, last = run[0], run[-1]
    stored = last.air.held - first.air.held
    taken = last.books.air_taken
    assert last.books.air_in == pytest.approx(taken + stored, rel=1e-6)


@EVERY
@EACH
def test_fuel_metered_is_fuel_drawn_and_grown(name: str, journey: str) -> None:
    _, run = run_of(name, journey)
    first, last = run[0], run[-1]
    grown = sum(getattr(last, each) - getattr(first, each) for each in ("film", "charge", "puddle"))
    came = last.books.metered + last.books.purged
    assert came == pytest.approx(last.books.drawn + grown, rel=1e-6)


@EVERY
@EACH
def test_fuel_past_the_needle_is_fuel_gone_and_fuel_left(name: str, journey: str) -> None:
    whole, run = run_of(name, journey)
    books, bowl = run[-1].books, whole.rig.float_bowl
    weight = bowl.bowl_area * density(whole.fuel, whole.weather.temperature)
    stored = weight * (run[-1].bowl.level - run[0].bowl.level)
    gone = books.jets + books.pumped + books.boiled + books.spilled
    assert books.bowl_in == pytest.approx(gone + stored, rel=1e-6, abs=1e-10)


@EVERY
@EACH
def test_what_leaves_the_bowl_is_metered_or_waits_in_pump_and_wells(
    name: str, journey: str
) -> None:
    whole, run = run_of(name, journey)
    waits, rig = 0.0, whole.rig
    for before, now in pairwise(run):
        dense = density(whole.fuel, min(max(before.bowl.temperature, 233.0), 363.0))
        inside = chamber_fuel(rig.pump, now.pump) - chamber_fuel(rig.pump, before.pump)
        sunk = sum(now.wells) - sum(before.wells)
        each = rig.air_path.barrels / len(now.wells)
        waits += dense * (inside - each * rig.high_speed.well_area * sunk)
    books = run[-1].books
    assert books.jets + books.pumped == pytest.approx(books.metered + waits, rel=1e-6)


@EVERY
def test_what_nobody_touches_stays_as_it_is(name: str) -> None:
    whole = car(name)
    held = Controls(0.1, 1800 * RPM)
    now = first = begun(whole, Start.warm(whole.rig, DAY), held)
    for _ in range(50):
        now = stepped(whole, now, held, 0.02)
    for part in ("film", "charge", "coolant", "choke", "throttle", "speed"):
        assert getattr(now, part) == pytest.approx(getattr(first, part), rel=5e-3)
    assert now.burning.mixture == pytest.approx(first.burning.mixture, rel=5e-3)
    assert now.bowl.level == pytest.approx(first.bowl.level, abs=5e-5)


@EVERY
def test_every_moment_is_a_state_of_the_network_with_its_own_settings(name: str) -> None:
    """Carburettors do not know speed: one that met what the manifold takes looks alike."""
    whole, run = car(name), tipped(name, 0.02, 0.5, 1500)
    for now in run[-20:]:
        settings = Settings(
            choke_angle=now.choke,
            bowl_level=now.bowl.level - whole.card_level,
            vapour=now.bowl.vapour,
            fuel_temperature=now.bowl.temperature,
        )
        again = solve(whole.rig, DAY, whole.fuel, now.speed, now.throttle, settings=settings)
        assert now.air.pressure == pytest.approx(again.pressures.manifold, rel=5e-4)
        assert now.air.asked == pytest.approx(again.fuel_flow, rel=2e-3)


@EVERY
def test_an_idling_engine_left_alone_goes_on_at_its_card_speed(name: str) -> None:
    whole = car(name)
    now = begun(whole, Start.warm(whole.rig, DAY))
    for _ in range(1000):
        now = stepped(whole, now, Controls(), 0.02)
    assert now.running
    assert now.speed == pytest.approx(whole.rig.engine.idle_speed, rel=0.05)


@EVERY
def test_longer_steps_end_in_the_same_idle(name: str) -> None:
    whole, ends = car(name), list[float]()
    for duration in (0.02, 0.5):
        now = begun(whole, Start.warm(whole.rig, DAY))
        for _ in range(round(20 / duration)):
            now = stepped(whole, now, Controls(), duration)
        ends.append(now.speed)
    assert ends[1] == pytest.approx(ends[0], rel=0.02)


@EVERY
def test_the_key_stops_the_engine_and_the_starter_starts_it_again(name: str) -> None:
    run = town(name)
    off = [now for now in run if 5.9 < now.time <= 6.1]
    assert all(not now.running and now.speed == 0.0 for now in off)
    assert off[-1].vacuum == 0.0
    assert run[-1].running


def test_the_air_of_a_like_drive_may_be_used_again() -> None:
    run = tipped("plover", 0.02, 0.5, 1000)
    whole, now = car("plover"), run[0]
    for then in run[1:]:
        held = Controls(then.pedal, then.speed)
        now = stepped(whole, now, held, then.time - now.time, air=then.air)
    assert now.burning == pytest.approx(run[-1].burning)
    assert now.books == pytest.approx(run[-1].books)


def test_a_rig_without_a_choke_is_driven_with_its_horn_open() -> None:
    whole = car("plover")
    whole = whole._replace(rig=whole.rig.__class__(**vars(whole.rig) | {"choke": ABSENT}))
    now = begun(whole, Start.warm(whole.rig, DAY))
    after = stepped(whole, now, Controls(0.2), 0.02)
    assert after.choke == now.choke == pytest.approx(1.5708, abs=1e-4)


@pytest.mark.parametrize(
    ("controls", "duration", "rule"),
    [
        (Controls(1.2), 0.02, "pedal must be between"),
        (Controls(0.1, -5.0), 0.02, "speed must be between"),
        (Controls(), 0.0, "duration must be positive"),
    ],
)
def test_what_no_driver_can_do_is_refused(controls: Controls, duration: float, rule: str) -> None:
    whole = car("plover")
    now = begun(whole, Start.warm(whole.rig, DAY))
    with pytest.raises(RangeError, match=rule):
        stepped(whole, now, controls, duration)
