"""Faults of the cold-start enrichment in motion, on dunlin.

They show where the throttle stands on its stop: a start whose pedal nobody pressed, so that the
cam is not set. On the cam they do not. Nozzles and idle circuits drink from one well, so what the
shut idle air lets the ports draw, the nozzles give less: all of it has passed the main jets.
What each fault does is common practice, no source; the bounds are judged.
"""

from functools import cache

import pytest
from fuelcircuits.physics.motion.drive import drive
from fuelcircuits.physics.motion.moving import Controls, Motion
from fuelcircuits.physics.motion.pedal import Leg
from fuelcircuits.physics.motion.start import Start, begun

from tests.physics.motion.test_complaints import with_fault

COOL = 283.15
LEANER, RICHER = 0.02, -0.02
SOON, LATE = 8.0, 24.0  # s: with the timer on; and when coolant has shut the switch


@cache
def started(fault: str, *, cam: bool = False) -> list[Motion]:
    """Return a start at 10 degC, the pedal untouched, with the cam set or not."""
    whole, key = with_fault("dunlin", fault, COOL), Controls(starter=True)
    begin = begun(whole, Start.cold(whole.weather))
    if not cam:
        begin = begin._replace(cam=0.0, throttle=whole.stop)
    legs = [Leg(2.5, key, 0.04), Leg(6.0, Controls(), 0.05), Leg(16.0, Controls(), 0.2)]
    return drive(whole, begin, legs, key)


def apart(fault: str, seconds: float, *, cam: bool = False) -> float:
    """Return lambda with the fault less lambda without, at a time [s]."""
    faulty, sound = (
        min(started(each, cam=cam), key=lambda now: abs(now.time - seconds)).burning.mixture
        for each in (fault, "")
    )
    return faulty - sound


@pytest.mark.parametrize(
    "fault", ["cold-start-timer-dead", "cold-start-solenoid-dead", "coolant-switch-reads-warm"]
)
def test_without_enrichment_the_cold_idle_is_leaner_at_first(fault: str) -> None:
    assert apart(fault, SOON) > LEANER
    assert apart(fault, LATE) == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize("fault", ["coolant-switch-reads-cold", "enrichment-valve-stuck-shut"])
def test_enrichment_that_stays_makes_the_idle_richer_later(fault: str) -> None:
    assert apart(fault, SOON) == pytest.approx(0.0, abs=0.01)
    assert apart(fault, LATE) < RICHER


def test_a_timer_that_never_ends_is_ended_by_the_coolant_switch() -> None:
    assert apart("cold-start-timer-long", LATE) == pytest.approx(0.0, abs=0.01)


def test_on_the_cam_nobody_notices() -> None:
    assert apart("cold-start-timer-dead", SOON, cam=True) == pytest.approx(0.0, abs=0.005)
