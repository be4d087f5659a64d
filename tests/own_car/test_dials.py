"""Entries of a card that may be off: how far they can be turned, and what turns with them."""

from math import exp

import pytest
from fuelcircuits.own_car.leeway import dials, turned
from fuelcircuits.own_car.scaling import rig_named

PLOVER = rig_named("plover")


@pytest.mark.parametrize(("step", "by"), [("middle", -1.0), ("rich", 1.0), ("rich", -1.0)])
def test_a_rod_of_two_steps_can_be_turned_either_way(step: str, by: float) -> None:
    found = [dial for dial in dials(PLOVER) if dial.entry == f"power.{step}_step"]
    rod = turned(PLOVER, found, [by]).power
    assert PLOVER.power.middle_step == PLOVER.power.rich_step
    assert rod.lean_step == PLOVER.power.lean_step
    moved = rod.rich_step / PLOVER.power.rich_step
    assert moved == pytest.approx(1.0 if step == "middle" else exp(0.02 * by))
    assert rod.middle_step >= rod.rich_step


def test_no_entry_is_turned_beyond_what_it_can_be() -> None:
    (screw,) = (dial for dial in dials(PLOVER) if dial.entry == "low_speed.screw_turns")
    for by in (-99.0, 99.0):
        turns = turned(PLOVER, [screw], [by]).low_speed.screw_turns
        low = PLOVER.low_speed
        assert turns == pytest.approx(low.most_turns if by > 0 else low.fewest_turns, abs=0.05)
