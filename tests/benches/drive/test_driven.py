"""A car driven: its books close, its gears keep its speed, and a fault shows its complaint."""

from itertools import pairwise

import pytest
from fuelcircuits.benches.drive.driven import away, onward
from fuelcircuits.benches.drive.foot import Foot, turns
from fuelcircuits.benches.drive.outing import Outing
from fuelcircuits.benches.drive.row import Row, row_of
from fuelcircuits.physics.motion.moving import Motion

from tests.benches.drive.outings import CARDS, journey, short

RPM = 2 * 3.14159265 / 60


def held(motion: Motion) -> float:
    """Return the fuel between nozzles and cylinders [kg]."""
    return motion.film + motion.charge + motion.puddle


@pytest.mark.parametrize("rig", CARDS)
def test_fuel_metered_is_fuel_drawn_and_what_film_and_charge_gain(rig: str) -> None:
    trace = short(rig)
    driven, now = away(trace.outing, CARDS[rig])
    first, told = now.motion, 0.0
    for foot in trace.feet:
        now = onward(driven, now, foot)
        told += 0.02 * row_of(driven, now).fuel
    books = now.motion.books
    gained = held(now.motion) - held(first)
    assert books.metered + books.purged == pytest.approx(books.drawn + gained, rel=1e-9)
    assert told == pytest.approx(books.metered, rel=1e-6)


def test_what_the_engine_draws_from_the_canister_is_what_its_bed_loses() -> None:
    """Mass balance, first principles: what a hot soak has put there goes to the engine."""
    card = CARDS["dunlin"]
    assert card.canister
    driven, now = away(Outing(rig="dunlin", engine="hot"), card)
    first, row, drawn = now.motion, row_of(driven, now), 0.0
    assert 0.0 < row.bed < 1.0
    for step in range(300):
        now = onward(driven, now, Foot(0.1, starter=step < 100))
        drawn += 0.02 * row_of(driven, now).purged
    lost = first.load - now.motion.load
    assert lost > 0.0
    assert now.motion.books.purged - first.books.purged == pytest.approx(lost, rel=1e-9)
    assert drawn == pytest.approx(lost, rel=0.01)  # of each step the rate at its end
    assert row.bed - row_of(driven, now).bed == pytest.approx(lost / card.canister.capacity)


def test_a_car_without_a_canister_tells_of_none() -> None:
    row = row_of(*away(Outing(rig="plover"), CARDS["plover"]))
    assert (row.bed, row.purged) == (-1.0, 0.0)


def test_a_gear_that_goes_in_keeps_the_car_s_speed() -> None:
    driven, now = away(Outing(rig="plover", speed=250.0, pedal=0.1, gear="low"), CARDS["plover"])
    assert now.road_speed == pytest.approx(250.0 / turns("low"))
    before = now.road_speed
    now = onward(driven, now, Foot(0.1, "top"))
    assert now.road_speed == pytest.approx(before, rel=0.05)
    assert now.motion.speed == pytest.approx(before * turns("top"), rel=0.05)


def test_out_of_gear_the_car_rolls_on_and_slows_down_as_rolling_and_air_say() -> None:
    driven, now = away(Outing(rig="plover", speed=250.0, pedal=0.1, gear="top"), CARDS["plover"])
    first = now.road_speed
    now = onward(driven, now, Foot(0.0, "neutral"))
    # first principles: 0.015 g and half of 0.45 * 2 m2 * density v2 over 1500 kg
    density = driven.car.weather.density
    slowing = 0.015 * 9.80665 + 0.5 * 0.45 * 2.0 * density * first**2 / 1500.0
    assert first - now.road_speed == pytest.approx(0.02 * slowing, rel=1e-6)


@pytest.mark.parametrize("rig", CARDS)
def test_the_engine_stops_with_the_key_and_starts_with_the_starter(rig: str) -> None:
    driven, now = away(Outing(rig=rig), CARDS[rig])
    for _ in range(100):
        now = onward(driven, now, Foot(key=False))
    assert not now.motion.running
    assert now.motion.speed < 26.0
    for _ in range(75):
        now = onward(driven, now, Foot(starter=True))
    assert now.motion.running
    assert now.motion.speed > 500 * RPM


def lean(rows: list[Row], limit: float = 1.15) -> float:
    """Return for how long the cylinders get less than so much fuel [s]."""
    return 0.02 * sum(row.mixture > limit and row.air > 1e-3 for row in rows)


def sag(rows: list[Row]) -> float:
    """Return for how long the torque is below that at two seconds, when the pedal goes down [s]."""
    return 0.02 * sum(row.torque < rows[100].torque - 1.0 for row in rows[101:])


# Common practice, no source: a dead pump is felt as a stumble where the throttle is floored at
# low speed, and a healthy one covers it.
@pytest.mark.parametrize("rig", CARDS)
def test_a_torn_pump_cup_stumbles_when_floored_and_a_healthy_one_does_not(rig: str) -> None:
    well, torn = (journey("floored", rig, fault, 4.0) for fault in ("", "torn-pump-cup"))
    assert sag(well) == 0.0
    assert lean(torn) > lean(well) + 0.2
    assert max(row.mixture for row in torn) > max(row.mixture for row in well) + 0.05


# Common practice, no source: a warm engine with its choke shut floods.
def test_a_choke_stuck_shut_floods_a_warm_engine_until_it_stops() -> None:
    well, shut = (journey("pull-away", "plover", fault, 5.0) for fault in ("", "choke-stuck-shut"))
    assert shut[-1].choke < 0.3 < well[-1].choke
    assert well[-1].running
    assert not shut[-1].running
    assert min(row.mixture for row in shut if row.running) < 0.6


# Common practice, no source: a torn cup is felt when the throttle is floored; a little too much
# fuel is not felt at all.
def test_a_car_of_the_yard_shows_its_complaint_where_it_has_one() -> None:
    gasps, sound = (journey("floored", "plover", fault, 4.0) for fault in ("car-3", "car-2"))
    assert lean(gasps) > 0.3 > lean(sound) == 0.0


def test_the_rods_rise_on_the_hill_when_the_vacuum_falls() -> None:
    rows = journey("hill", "plover", seconds=10.0)
    low, high = (rows[round(at / 0.02)] for at in (1.9, 9.9))
    assert low.power == pytest.approx(0.0, abs=1e-6)
    assert high.power > 0.1 * high.fuel
    assert high.vacuum < low.vacuum / 2


@pytest.mark.parametrize("rig", CARDS)
def test_a_hot_engine_starts_and_idles(rig: str) -> None:
    assert journey("hot-idle", rig, seconds=9.0)[-1].running


def test_time_goes_on_by_equal_steps() -> None:
    rows = journey("floored", "plover", seconds=2.0)
    assert all(b.time - a.time == pytest.approx(0.02) for a, b in pairwise(rows))
