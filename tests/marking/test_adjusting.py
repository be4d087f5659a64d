"""Questions answered by setting a bench: the bench's own physics judges, whatever is claimed.

What a setting comes to is held to a bench that is opened here, on the card in the course's folder.
"""

from collections.abc import Mapping
from typing import Any

import pytest
from fuelcircuits.answer_sheet.sheet import record
from fuelcircuits.benches import open_bench
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.cards import read_rig
from fuelcircuits.own_car.scaling import RIGS as NAMES
from fuelcircuits.own_car.scaling import rig_named
from fuelcircuits.quantities.units import Q
from fuelmarks.course.cells import exercise_cells
from fuelmarks.marking.adjusting import asked_of
from fuelmarks.marking.marking import Mark, mark_sheet
from fuelmarks.marking.worked import worked_text
from fuelmarks.questions import Adjustment, Sheet, draw, load
from fuelmarks.questions.frame.block import read_block
from fuelmarks.questions.frame.drawing import right_answer
from fuelmarks.questions.frame.settling import settled
from fuelmarks.questions.frame.worded import BlockError

from tests.places import RIGS

UNITS = ("02-float-bowl", "04-low-speed", "05-off-idle", "08-pump", "11-setting-up")
"""Units that ask for settings; that of the choke is held in its own test."""
LOW = "04-low-speed"


def asked(unit: str) -> Adjustment:
    return next(one for one in load(unit) if isinstance(one, Adjustment))


def marked(unit: str, value: Any, seed: int = 0) -> Mark:
    """Return the mark for whatever a notebook hands over as the settings."""
    exercise, sheet = asked(unit), draw(load(unit), seed)
    handed: Mapping[str, Any] = dict(record(unit, exercise.id, value))
    return mark_sheet(load(unit), sheet, {exercise.id: handed})[exercise.id]


def reading(exercise: Adjustment, sheet: Sheet, label: str, **moved: float) -> float:
    """Return what a bench on the course's card reads with a sheet's bench set so."""
    bench = open_bench(exercise.bench, read_rig(RIGS / f"{exercise.rig}.toml"))
    stands = {name: each.of(sheet.givens) for name, each in exercise.stands.items()}
    state = bench.stand(**stands, **{k: v for k, v in moved.items() if k not in stands}).state(
        moved
    )
    shown: tuple[Gauge | Reading, ...] = (*state.gauges, *state.readings)
    named = {one.label: one.value for one in shown}
    found = named[label]
    return float(found[-1] if isinstance(found, list) else found)


def test_the_package_marks_with_the_cards_of_the_course() -> None:
    for name in NAMES:
        assert rig_named(name) == read_rig(RIGS / f"{name}.toml")


@pytest.mark.parametrize("unit", UNITS)
def test_what_was_found_to_meet_it_reads_so_on_another_bench(unit: str) -> None:
    exercise, sheet = asked(unit), draw(load(unit), 1)
    text = right_answer(exercise, sheet)
    assert marked(unit, text, 1).points == exercise.points
    moved = settled(exercise, sheet.givens)
    for want in exercise.wants:
        found = reading(exercise, sheet, want.reading, **moved)
        assert abs(found - float(want.target.of(sheet.givens))) <= want.within


@pytest.mark.parametrize("unit", UNITS)
def test_a_job_left_as_it_came_in_earns_nothing(unit: str) -> None:
    exercise, sheet = asked(unit), draw(load(unit), 0)
    left = exercise.left(sheet.givens)
    text = "&".join(f"{name}={left[name]!r}" for name in exercise.moves)
    found = marked(unit, text)
    assert (found.points, found.verdict) == (0, "wrong")
    assert "how the job came in" in found.comment


def test_screws_are_right_where_the_bench_reads_what_is_asked_and_nowhere_else() -> None:
    exercise, sheet = asked(LOW), draw(load(LOW), 2)
    gas, right = sheet.givens["asked_gas"], 0
    for eighths in range(12, 30):
        turns = eighths / 8
        found = marked(LOW, f"screw_turns = {turns} turns", 2)
        off = reading(exercise, sheet, "Carbon monoxide", screw_turns=turns) - gas
        assert (found.verdict == "right") is (abs(off) <= 0.007)
        if found.verdict != "right" and turns != 3.5:
            assert found.verdict == ("slip:set-rich" if off > 0 else "slip:set-lean")
            assert found.points == (1.5 if abs(off) <= 0.014 else 0)
        right += found.verdict == "right"
    assert right


def test_half_a_turn_too_far_is_told_as_half_a_turn() -> None:
    exercise, sheet = asked("05-off-idle"), draw(load("05-off-idle"), 0)
    turns = settled(exercise, sheet.givens)["screw_turns"]
    rich, lean = (marked("05-off-idle", f"{turns + off} turns") for off in (0.5, -0.5))
    assert rich.comment.startswith("Set rich: Lambda is 0.")
    assert lean.comment.startswith("Set lean: Lambda is ")
    assert all("about half a turn out" in one.comment for one in (rich, lean))


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        ("screw_turns=2.375", "right"),
        ("Screw off its seat: 2 3/8 turns", "right"),
        (2.375, "right"),
        (Q(2.375, "turn"), "right"),
        ("screw_turns = 2.375, jet_bore = 0.6 mm", "not-a-setting"),
        ("Carbon monoxide = 2.5 %", "not-a-setting"),
        ("right", "not-a-setting"),
        (["screw_turns", 2.375], "not-a-setting"),
        (object(), "not-a-setting"),
        (float("nan"), "not-a-setting"),
        ("screw_turns = 99 turns", "not-a-setting"),
        ("", "blank"),
        (None, "blank"),
    ],
)
def test_settings_come_in_many_forms_and_claims_in_none(value: object, verdict: str) -> None:
    assert marked(LOW, value, 0).verdict == verdict


def test_a_record_that_claims_a_reading_is_not_believed() -> None:
    exercise, sheet = asked(LOW), draw(load(LOW), 0)
    forged = {**record(LOW, exercise.id, "screw_turns=4.5"), "Carbon monoxide": 0.025, "right": 1}
    found = mark_sheet(load(LOW), sheet, {exercise.id: forged})[exercise.id]
    assert found.verdict == "slip:set-rich"


def test_a_part_that_is_set_right_earns_its_part() -> None:
    unit = "11-setting-up"
    exercise, sheet = asked(unit), draw(load(unit), 0)
    found = settled(exercise, sheet.givens)
    wrong = found | {"mixture_screw": found["mixture_screw"] + 1.0}
    said = marked(unit, "&".join(f"{name}={at!r}" for name, at in wrong.items()))
    assert said.verdict == "slip:set-rich"
    assert 0 < said.points < exercise.points
    assert "CO is" in said.comment


def test_the_worked_answer_says_one_way_and_what_was_asked() -> None:
    exercise, sheet = asked(LOW), draw(load(LOW), 0)
    way, band = worked_text(exercise, sheet)
    assert right_answer(exercise, sheet) in way
    assert all(one in band for one in asked_of(exercise, sheet.givens))


def test_the_notebook_lays_the_bench_out_as_the_job_came_in() -> None:
    exercise, sheet = asked(LOW), draw(load(LOW), 3)
    _, bench, answer, hand_over = exercise_cells(LOW, exercise, sheet)
    made: dict[str, Any] = {"rig": read_rig(RIGS / "plover.toml")}
    exec(bench.source, made)  # the cell as a notebook runs it
    stood = made["idle_by_the_screws_bench"]
    assert stood.values() == exercise.left(sheet.givens) == stood.starts
    assert stood.values()["jet_bore"] == pytest.approx(sheet.givens["reamed_jet"])
    assert right_answer(exercise, sheet) in answer.source
    assert '"screw_turns": ("Screw off its seat", "turns", 1, 5)' in hand_over.source


BLOCK = """
[given]
worn_jet = "0.62, 0.64 mm | the worn jet"
[[question]]
id = "by-the-screw"
ask = "Set it."
bench = "low_speed"
[question.stands]
jet_bore = "worn_jet"
screw_turns = "3.5"
[[question.want]]
reading = "Lambda"
target = "0.93"
within = "0.02"
by = "screw_turns"
below = "set rich"
above = "set lean"
"""


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"low_speed"', '"carburettor"', "bench must be one of gauges"),
        ("jet_bore =", "jet =", "stands must name screw_turns, jet_bore"),
        ('"worn_jet"', '"9 mm"', "low-speed jet must be"),
        ('"worn_jet"', '"0.6"', "jet_bore must be a given or a number in mm, got '0.6'"),
        ('"3.5"', '"3.5 mm"', "screw_turns must be a given or a number in turns"),
        ('"Lambda"', '"Air"', "reading must be one of Idle-port vacuum"),
        ('"0.02"', '"0"', "within must be above 0"),
        ('by = "screw_turns"', 'by = "kind"', "by must be one of screw_turns"),
        ('below = "set rich"\n', "", "must have below"),
        ('ask = "Set it."', 'ask = "Set it."\nrig = "heron"', "rig must be one of plover"),
        ('above = "set lean"', 'above = "set lean"\nat = "noon"', "at must be one of first"),
    ],
)
def test_an_author_is_told_what_cannot_be_used(old: str, new: str, said: str) -> None:
    assert isinstance(read_block(BLOCK, "questions.toml").exercises[0], Adjustment)
    with pytest.raises(BlockError, match=said):
        read_block(BLOCK.replace(old, new), "questions.toml")
