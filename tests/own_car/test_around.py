"""What lies around the carburettor: asked of an owner, and weighed once somebody has read it."""

from functools import cache

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.checks import CHECKS, OWN
from fuelcircuits.faults import AROUND
from fuelcircuits.own_car.foreseen import to_make
from fuelcircuits.own_car.readings import asked, understood
from fuelcircuits.own_car.report import Report, diagnose
from fuelcircuits.own_car.tools import PRICES, TOOLS
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

from tests.places import RIGS


@cache
def plover() -> Rig:
    return read_rig(RIGS / "plover.toml")


@cache
def report(**readings: str) -> Report:
    """Return the report on plover with these readings, nothing further to be made."""
    read = {name.replace("_", "-"): text for name, text in readings.items()}
    return diagnose(plover(), read, further=())


def names(made: Report) -> set[str]:
    return {one.name for one in made.suspicions}


def test_what_lies_around_is_asked_last_and_its_tool_has_a_price() -> None:
    every = [check.name for check in asked(plover())]
    around = [name for name in every if name not in OWN]
    assert every[-len(around) :] == around
    assert {"timing", "compression", "hoses-pinched"} <= set(around)
    assert {TOOLS[name] for name in around} <= set(PRICES)


def test_nothing_around_is_foreseen_before_something_there_is_read() -> None:
    assert {check.name for check in to_make(plover(), ["idle-vacuum"])} <= set(OWN)
    after = {check.name for check in to_make(plover(), ["idle-vacuum", "timing"])}
    assert {"compression", "hoses-pinched", "riser-heat"} <= after
    assert not {check.name for check in CHECKS if check.slow} & after


def test_suspects_around_are_weighed_once_one_of_them_was_looked_at() -> None:
    assert not names(report(fuel_pressure="5 psi")) & set(AROUND)
    assert set(AROUND) <= names(report(timing="8 deg"))


def test_a_late_mark_in_the_timing_light_is_late_ignition() -> None:
    # Common practice: the timing light reads the very thing, good to a degree.
    found = report(timing="8 deg")
    assert found.suspicions[0].name == "late-ignition"
    assert found.verdict == "fault"
    assert found.evidence("late-ignition") > 100 > found.evidence("early-ignition")


def test_a_good_timing_rules_spark_out_and_says_nothing_of_the_rest() -> None:
    found = report(timing="0 deg")
    sure = {one.name: one.probability for one in found.suspicions}
    assert sure["late-ignition"] < 0.5 * sure["weak-cylinder"]
    assert found.evidence("weak-cylinder") == pytest.approx(1.0, rel=0.01)


def test_a_reading_around_is_understood_in_shop_units() -> None:
    read = understood({"compression": "75 %", "timing": "6 deg"}, Fuel())
    assert read == pytest.approx({"compression": 0.75, "timing": 0.10472}, rel=1e-4)
