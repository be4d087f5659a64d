"""A drive that is handed in is driven again and held to limits; each slip breaks its own.

The limits are common practice (no source). What is checked is that a careful foot keeps them, and
that each careless one breaks the limit that it should, on both rigs.
"""

from functools import cache

import pytest
from fuelcircuits.benches.drive.bench import DriveBench
from fuelcircuits.benches.drive.journeys import JOURNEYS, Leg, trace_of
from fuelcircuits.benches.drive.judging import TASKS, Judged, judged
from fuelcircuits.benches.drive.limits import AWAY, GASP, MISFIRE, SOUND, STALL, VACUUM, Limit
from fuelcircuits.benches.drive.trace import Trace
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError

from tests.places import RIGS

LEGS = {
    "careful": (Leg(1.0, 0.0), Leg(2.0, 0.12, "low"), Leg(3.5, 0.25, "low")),
    "floored": (Leg(1.0, 0.0), Leg(0.2, 1.0, "low"), Leg(2.0, 1.0, "low")),
    "never away": (Leg(3.0, 0.1),),
    "uphill in top": (Leg(1.0, 0.0), Leg(3.0, 0.0, "top", 0.2)),
    "pumped": (
        Leg(1.0, 0.0),
        *(Leg(0.1, pedal) for pedal in (1.0, 0.0, 1.0, 0.0, 1.0, 0.0)),
        Leg(2.0, 0.12, "low"),
        Leg(3.0, 0.25, "low"),
    ),
}
BROKEN = {
    "careful": set(),
    "floored": {VACUUM},
    "never away": {AWAY},
    "uphill in top": {AWAY, STALL},
    "pumped": {VACUUM, MISFIRE},
}


def traced(legs: tuple[Leg, ...], rig: str, task: str = "pull-away") -> Trace:
    return trace_of(JOURNEYS[task]._replace(legs=legs), rig)


@cache
def found(legs: str, rig: str) -> Judged:
    return judged(traced(LEGS[legs], rig).text, read_rig(RIGS / f"{rig}.toml"), "pull-away")


@pytest.mark.parametrize("rig", ["plover", "dunlin"])
@pytest.mark.parametrize("legs", LEGS)
def test_each_foot_breaks_what_it_should_and_no_more(legs: str, rig: str) -> None:
    broken = {one.words for one in found(legs, rig).verdicts if not one.kept}
    assert {words.partition(" At ")[0] for words in broken} == {one.words for one in BROKEN[legs]}
    for limit in BROKEN[legs]:
        assert any(limit.slip in words for words in broken)


def test_points_go_by_limits_kept_and_there_are_none_without_the_goal() -> None:
    assert found("careful", "plover").share == 1.0
    assert found("floored", "plover").share == 0.75
    assert found("never away", "plover").share == 0.0


def test_a_cold_engine_that_is_cranked_starts_and_one_that_is_not_does_not() -> None:
    rig = read_rig(RIGS / "plover.toml")
    cranked = (Leg(0.5, 0.0), Leg(2.0, 0.0, starter=True), Leg(3.5, 0.0))
    assert judged(traced(cranked, "plover", "cold-start"), rig, "cold-start").share == 1.0
    left = judged(traced((Leg(2.0, 0.0),), "plover", "cold-start"), rig, "cold-start")
    assert (left.reached, left.share) == (False, 0.0)


def test_the_same_trace_gives_the_same_on_the_bench_and_to_whoever_marks_it() -> None:
    rig = read_rig(RIGS / "plover.toml")
    bench, trace = DriveBench(rig), traced(LEGS["floored"], "plover")
    packed = bench.ask("load", text=trace.text)
    bench.ask("begin", outing=packed["outing"])
    bench.ask("go", feet=packed["feet"])
    told = bench.ask("judge", task="pull-away")
    again = judged(bench.ask("save")["text"], rig, "pull-away")
    assert [one["words"] for one in told["verdicts"]] == [one.words for one in again.verdicts]
    assert told["kept"] == sum(one.kept for one in again.verdicts) == 3


REFUSED = {
    "another task": ("moon", traced(LEGS["careful"], "plover"), "task must be one of pull-away"),
    "another start": (
        "cold-start",
        traced(LEGS["careful"], "plover"),
        "outside of a drive of cold-start must be 268.15, got 298.15",
    ),
    "too long": (
        "pull-away",
        traced((Leg(15.02, 0.0),), "plover"),
        "drive of pull-away must take 15 s or less, got 15.02 s",
    ),
    "another rig": ("pull-away", traced(LEGS["careful"], "dunlin"), "rig must be dunlin"),
}


@pytest.mark.parametrize(("task", "trace", "words"), REFUSED.values(), ids=REFUSED)
def test_what_is_no_drive_of_the_task_is_refused(task: str, trace: Trace, words: str) -> None:
    with pytest.raises(RangeError, match=words):
        judged(trace, read_rig(RIGS / "plover.toml"), task)


def test_a_car_with_a_fault_is_no_task() -> None:
    trace = traced(LEGS["careful"], "plover")
    faulty = trace._replace(outing=trace.outing._replace(fault="blocked-pump-jet"))
    with pytest.raises(RangeError, match="fault of a drive of pull-away must be nothing"):
        judged(faulty, read_rig(RIGS / "plover.toml"), "pull-away")


IN_TOP = (Leg(1.0, 0.0), Leg(0.6, 0.0, "top"), Leg(0.2, 1.0, "top"), Leg(0.8, 1.0, "top"))
COMPLAINTS = {
    "floored in top": (IN_TOP, set()),
    "gently": ((Leg(1.0, 0.0), Leg(2.0, 0.12, "low")), {GASP}),
    "floored and let go": ((*IN_TOP, Leg(0.1, 0.0, "top"), Leg(0.9, 0.0, "top")), {SOUND}),
}


@pytest.mark.parametrize(("legs", "broken"), COMPLAINTS.values(), ids=COMPLAINTS)
def test_a_complaint_is_proved_where_the_healthy_car_does_not_share_it(
    legs: tuple[Leg, ...], broken: set[Limit]
) -> None:
    rig = read_rig(RIGS / "plover.toml")
    told = judged(traced(legs, "plover", "complaint"), rig, "complaint")
    missed = {one.words.partition(" At ")[0] for one in told.verdicts if not one.kept}
    assert missed == {one.words for one in broken}


def test_every_task_is_a_set_journey() -> None:
    assert TASKS.keys() <= JOURNEYS.keys()
