"""A journey made of legs: its corners and its clock."""

from itertools import accumulate

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.motion.journey import Leg, cranked, journey, since_start
from fuelcircuits.physics.numerics.interpolation import nearest
from fuelcircuits.physics.openings.plate import OPEN

STOP = 0.2
LEGS = [Leg(2.0, 0.0, 16.0), Leg(0.5, 0.0, 100.0), Leg(1.03, 0.5, 120.0)]
TRIP = journey(LEGS, STOP, start=(0.0, 16.0), step=0.1)


def test_every_leg_ends_on_a_point_of_its_own() -> None:
    ends = list(accumulate(leg.duration for leg in LEGS))
    found = [nearest(end, TRIP.times) for end in ends]
    assert [TRIP.times[at] for at in found] == pytest.approx(ends)
    assert [TRIP.speed[at] for at in found] == pytest.approx([16.0, 100.0, 120.0])


def test_half_throttle_is_half_way_from_the_stop_to_wide_open() -> None:
    assert TRIP.throttle[-1] == pytest.approx((STOP + OPEN) / 2)
    assert TRIP.throttle[0] == STOP


def test_the_clock_runs_from_where_the_starter_lets_go() -> None:
    turning, clock = cranked(TRIP, 16.0), since_start(TRIP, 16.0)
    caught = turning.index(False)
    assert set(clock[:caught]) == {-1.0}
    assert clock[caught] == 0
    assert clock[-1] == pytest.approx(TRIP.times[-1] - TRIP.times[caught])


def test_an_engine_that_runs_from_the_beginning_started_long_ago() -> None:
    assert min(since_start(journey(LEGS[1:2], STOP), 16.0)) == 3600


@pytest.mark.parametrize(
    ("legs", "rule"),
    [
        ([], "journey must have a leg"),
        ([Leg(0.0, 0.0, 75.0)], "duration must be positive"),
        ([Leg(1.0, 1.5, 75.0)], "throttle share must be between 0 and 1"),
        ([Leg(1.0, 0.0, 0.0)], "speed must be positive"),
    ],
)
def test_a_journey_that_cannot_be_driven_is_refused(legs: list[Leg], rule: str) -> None:
    with pytest.raises(RangeError, match=rule):
        journey(legs, STOP)
