"""Entries of a card that may be off: how far they can be turned, and what turns with them."""

from math import exp

import numpy as np
import pytest
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.own_car import sharpening as own_sharpening
from fuelcircuits.own_car.entries import ENTRIES
from fuelcircuits.own_car.healthy import healthy
from fuelcircuits.own_car.leeway import dials, turned
from fuelcircuits.own_car.scaling import rig_named
from fuelcircuits.own_car.sharpening import sharpening
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel

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


def test_what_a_measurement_sharpens_is_what_is_left_once_it_is_made(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # The covariance worked out anew with one entry measured; first principles.
    card = healthy(PLOVER, Weather.at(), Fuel(), measured=["engine.displacement"])
    checks = [find(name) for name in ("idle-mixture", "cruise-mixture", "port-vacuum")]
    usual = np.array(card.slope([find(name) for name in card.usual]))
    usual /= np.array([[one.spread] for one in card.usual.values()])
    slope = np.array(card.slope(checks)) / [[check.uncertainty(0.0)] for check in checks]

    def left_open(measured: str) -> float:
        by = [one.measurable / one.share if one.entry == measured else 1.0 for one in card.free]
        known = usual * by
        of_dials = np.linalg.inv(np.eye(len(by)) + known.T @ known)
        return float(np.trace((slope * by) @ of_dials @ (slope * by).T))

    order = sorted((one.entry for one in card.free if one.entry in ENTRIES), key=left_open)
    monkeypatch.setattr(own_sharpening, "SHARPENS", -1.0)
    found = sharpening(card, checks, ENTRIES)
    assert found == [entry for entry in order if entry in found]
    assert len(found) > 5
    monkeypatch.setattr(own_sharpening, "SHARPENS", 0.02)
    assert sharpening(card, checks, ENTRIES) == [
        one for one in found if left_open(one) < 0.98 * left_open("")
    ]
