"""Clutch, gears and brake: spin is kept where shafts meet, slip carries no more than it can.

Expected numbers are worked out here from first principles (momentum, force over mass); sizes of
clutch and brake are common practice, no source.
"""

import pytest
from fuelcircuits.benches.drive.clutch import BRAKES, HOLDS, MASS, Shafts, coupled, road_of
from fuelcircuits.benches.drive.driven import Moment, away, onward
from fuelcircuits.benches.drive.foot import Foot, turns
from fuelcircuits.benches.drive.outing import Outing
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.crank import road

from tests.benches.drive.outings import CARDS, journey

AIR = Weather.at()
STEP = 0.02


def shafts(engine: float, wheels: float, torque: float = 0.0) -> Shafts:
    return Shafts(engine, wheels, 0.25, torque, road_of(Foot(gear="low"), AIR))


def going(rig: str, *feet: tuple[int, Foot], **outing: object) -> list[Moment]:
    """Return the moments of a drive of so many steps of each foot."""
    driven, now = away(Outing(rig=rig, **outing), CARDS[rig])  # type: ignore[arg-type]
    moments = [now]
    for count, foot in feet:
        for _ in range(count):
            moments.append(now := onward(driven, now, foot))
    return moments


def test_a_pressed_clutch_carries_nothing_and_a_slipping_one_what_it_can() -> None:
    free = coupled(Foot(clutch=1.0), Foot(gear="low", clutch=1.0), shafts(200.0, 0.0), STEP)
    assert (free.engine, free.push) == (200.0, 0.0)
    half = coupled(Foot(clutch=1.0), Foot(gear="low", clutch=0.5), shafts(200.0, 0.0), STEP)
    assert half.push == pytest.approx(0.5 * HOLDS * turns("low"))
    assert half.engine == pytest.approx(200.0 - 0.5 * HOLDS * STEP / 0.25)


def test_where_shafts_meet_their_spin_is_kept() -> None:
    met = coupled(Foot(clutch=0.3), Foot(gear="low", clutch=0.3), shafts(101.0, 100.0), STEP)
    car = road(12.0).inertia
    assert met.push is None
    assert (0.25 + car) * met.engine == pytest.approx(0.25 * 101.0 + car * 100.0)


def test_a_rolling_car_turns_a_dead_engine_through_its_clutch() -> None:
    slips = coupled(Foot(clutch=1.0), Foot(gear="low", clutch=0.2), shafts(0.0, 100.0), STEP)
    assert slips.push == pytest.approx(-0.8 * HOLDS * turns("low"))
    assert slips.engine > 0.0


@pytest.mark.parametrize("rig", CARDS)
def test_the_car_stands_in_gear_pulls_away_and_stops_with_the_engine_running(rig: str) -> None:
    rows = journey("lights", rig)
    stands = [row for row in rows if row.time < 2.9]
    assert max(row.road_speed for row in stands) == 0.0
    assert min(row.speed for row in stands) == pytest.approx(rows[0].speed, rel=0.03)
    assert max(row.road_speed for row in rows) > 40 / 3.6
    assert rows[-1].road_speed == 0.0
    assert all(row.running for row in rows)


def test_a_clutch_let_go_at_once_stalls_an_idling_engine() -> None:
    braked = Foot(gear="top", clutch=1.0, brake=0.5)
    moments = going(
        "plover",
        (5, braked._replace(gear="neutral")),
        (5, braked),
        (40, Foot(gear="top", brake=0.5)),
    )
    assert moments[10].motion.running
    assert not moments[-1].motion.running
    assert moments[-1].road_speed == 0.0


def test_the_brake_slows_by_its_force_over_the_mass() -> None:
    rolls = {"speed": 250.0, "pedal": 0.1, "gear": "top"}
    before, after = going("plover", (1, Foot(brake=0.5)), **rolls)
    # first principles: the brake's share of free fall, with rolling and air as in test_driven
    air = 0.5 * 0.45 * 2.0 * Weather.at(0.0, 298.15).density * before.road_speed**2 / MASS
    slowing = 0.5 * BRAKES * 9.80665 + 0.015 * 9.80665 + air
    assert before.road_speed - after.road_speed == pytest.approx(STEP * slowing, rel=1e-6)


def test_in_gear_the_brake_holds_engine_and_car_alike() -> None:
    rolls = {"speed": 250.0, "pedal": 0.0, "gear": "top"}
    *_, last = going("plover", (10, Foot(gear="top", brake=0.5)), **rolls)
    assert last.motion.speed == pytest.approx(turns("top") * last.road_speed)
    *_, free = going("plover", (10, Foot(gear="top")), **rolls)
    assert last.road_speed < free.road_speed - 0.5


def test_clutch_and_brake_left_alone_are_left_out_of_a_trace() -> None:
    assert len(Foot(0.2, "low").told) == 5
    assert Foot(0.2, "low", clutch=0.4).told[5:] == [0.4, 0.0]
