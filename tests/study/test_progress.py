"""Progress is kept in one file that is never half there and never lost, and says what is next."""

import json
import os
from pathlib import Path

import pytest
from fuelcircuits.answer_sheet.sheet import Record, record
from fuelcircuits.quantities.units import Q
from fuelmarks.commands.cli import main
from fuelmarks.course.personal import study_seed
from fuelmarks.marking.marking import Mark
from fuelmarks.questions import draw, load
from fuelmarks.study.advice import advise
from fuelmarks.study.progress import (
    FILE,
    Progress,
    ProgressError,
    find_progress,
    note,
    read_progress,
    write_progress,
)
from fuelmarks.study.telling import tell, what_next

from tests.small_unit import EXERCISES, UNIT, new_course, shelve

DAY, NEXT_DAY = "2026-11-25", "2026-11-26"
SHEET = draw(EXERCISES, study_seed("specimen", EXERCISES))


def mark(verdict: str, points: float, exercise: str = "seat-area") -> Mark:
    out_of = EXERCISES[exercise].points
    return Mark(exercise, points, out_of, verdict, "", "")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """An empty progress file."""
    write_progress(tmp_path / FILE, Progress())
    return tmp_path / FILE


@pytest.fixture
def unit_folder(path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of the small unit beside a progress file, where its notebook runs."""
    shelve()
    folder = path.parent / UNIT
    folder.mkdir()
    (folder / f"{UNIT}.ipynb").write_text("{}")
    monkeypatch.chdir(folder)
    return folder


def answer(exercise: str, factor: float = 1.0, tries: int = 1) -> str:
    """Answer one exercise in study mode with `factor` times the right value."""
    unit = {"seat-area": "m^2"}.get(exercise, "N")
    value = Q(factor * SHEET.answers[exercise], unit)
    records: dict[str, Record] = {exercise: record(UNIT, exercise, value)}
    return tell(UNIT, "specimen", exercise, records, tries)


def test_the_best_verdict_stays_with_its_day_and_slips_are_remembered(path: Path) -> None:
    note(path, UNIT, mark("slip:radius", 0.5), DAY, shown=False)
    note(path, UNIT, mark("right", 2.0), NEXT_DAY, shown=True)
    note(path, UNIT, mark("wrong", 0.0), "2026-11-27", shown=False)
    found = read_progress(path, DAY).of(UNIT, "seat-area")
    assert found is not None
    assert (found.best, found.date, found.tries) == ("right", NEXT_DAY, 3)
    assert (found.slips, found.helped, found.done) == (("radius",), False, True)


def test_right_after_the_worked_answer_was_shown_is_noted(path: Path) -> None:
    note(path, UNIT, mark("wrong", 0.0), DAY, shown=True)
    note(path, UNIT, mark("right", 2.0), DAY, shown=True)
    found = read_progress(path, DAY).of(UNIT, "seat-area")
    assert found is not None
    assert (found.best, found.helped) == ("right", True)


DAMAGED = [
    b"",
    b"{",
    b"[]",
    b"\xff\xfe\x00",
    b'{"version": 0, "units": {}}',
    b'{"version": 1}',
    b'{"version": 1, "units": [1]}',
    b'{"version": 1, "units": {"u": {"e": {"best": 7}}}}',
    b'{"version": 1, "units": {"u": {"e": null}}}',
    b"[" * 100_000,
]


@pytest.mark.parametrize("text", DAMAGED)
def test_a_damaged_file_is_put_aside_whole_and_named(path: Path, text: bytes) -> None:
    path.write_bytes(text)
    progress = note(path, UNIT, mark("right", 2.0), DAY, shown=False)
    assert progress.aside == f"my-progress.damaged-{DAY}-1.json"
    assert (path.parent / progress.aside).read_bytes() == text
    assert read_progress(path, DAY).of(UNIT, "seat-area") is not None


def test_a_second_damaged_file_overwrites_no_first_one(path: Path) -> None:
    for text in ("first", "second"):
        path.write_text(text)
        read_progress(path, DAY)
    kept = sorted(one.read_text() for one in path.parent.glob("my-progress.damaged-*"))
    assert kept == ["first", "second"]


def test_a_file_of_a_later_version_is_left_alone(path: Path) -> None:
    path.write_text(later := '{"version": 2, "units": {"new": 1}}')
    with pytest.raises(ProgressError, match="must be of version 1, got 2"):
        note(path, UNIT, mark("right", 2.0), DAY, shown=False)
    assert path.read_text() == later


class Killed(BaseException):
    """The computer goes off at this moment."""


def test_a_file_that_is_being_written_is_the_old_one_or_the_new_one(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    note(path, UNIT, mark("right", 2.0), DAY, shown=False)

    def killed(*_: object) -> None:
        raise Killed

    monkeypatch.setattr(os, "replace", killed)
    with pytest.raises(Killed):
        note(path, UNIT, mark("right", 4.0, "needle-force"), DAY, shown=False)
    assert json.loads(path.read_text())["units"][UNIT].keys() == {"seat-area"}


def test_without_a_progress_file_nothing_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shelve()
    monkeypatch.chdir(tmp_path)
    assert answer("seat-area").startswith("2 of 2 points.")
    assert (list(tmp_path.iterdir()), find_progress(tmp_path)) == ([], None)
    with pytest.raises(ProgressError, match=r"my-progress\.json must lie in the study folder"):
        what_next()


def test_study_mode_keeps_what_is_answered(unit_folder: Path) -> None:
    answer("seat-area", factor=4.0)
    found = read_progress(unit_folder.parent / FILE, DAY).of(UNIT, "seat-area")
    assert found is not None
    assert (found.best, found.points, found.slips) == ("slip:radius", 0.5, ("radius",))


def test_study_mode_says_that_a_damaged_file_was_put_aside(unit_folder: Path) -> None:
    (unit_folder.parent / FILE).write_text("{")
    assert "my-progress.json was damaged; it is kept as my-progress.damaged-" in answer("seat-area")


def test_an_answer_is_checked_even_if_it_cannot_be_kept(unit_folder: Path) -> None:
    (unit_folder.parent / FILE).write_text('{"version": 9}')
    words = answer("seat-area")
    assert words.startswith("2 of 2 points. Right.")
    assert "Your progress could not be kept: my-progress.json must be of version 1" in words


def test_advice_goes_from_missed_to_untried_to_the_next_unit(unit_folder: Path) -> None:
    answer("seat-area", factor=4.0)
    said = what_next()
    assert [(one.unit, one.exercise) for one in said.suggestions] == [
        (UNIT, "seat-area"),
        (UNIT, "needle-force"),
        (UNIT, "float-lift"),
    ]
    assert "halve it first" in said.suggestions[0].why
    assert said.missing == ("A1", "A2")
    assert repr(said).startswith(
        "0 of 3 exercises done.\nNot yet shown:\n- A1\n- A2\nNext: seat-area"
    )


def test_a_finished_unit_leads_to_the_next_one(unit_folder: Path) -> None:
    other = unit_folder.parent / "02-float-bowl"
    other.mkdir()
    (other / "02-float-bowl.ipynb").write_text("{}")
    words = [answer(exercise.id) for exercise in EXERCISES]
    assert "All of this unit is done." not in words[1]
    asked = len(EXERCISES.exercises) + len(load("02-float-bowl").exercises)
    assert f"All of this unit is done.\n3 of {asked} exercises done." in words[2]
    assert "Next: unit 02-float-bowl: The float circuit, not yet begun" in words[2]


def test_what_came_right_after_a_slip_or_help_comes_back_last(unit_folder: Path) -> None:
    answer("seat-area", factor=4.0)
    answer("needle-force", factor=1.5, tries=3)
    for exercise in EXERCISES:
        answer(exercise.id)
    why = {one.exercise: one.why for one in what_next().suggestions}
    assert "after a slip (radius)" in why["seat-area"]
    assert "after the worked answer was shown" in why["needle-force"]
    assert "float-lift" not in why


def test_outcomes_are_told_in_words_where_their_list_lies(unit_folder: Path) -> None:
    (unit_folder.parent / "outcomes.toml").write_text('[A1]\ntitle = "Finds an area"\n')
    answer("seat-area", factor=4.0)
    said = repr(what_next())
    assert "Not yet shown:\n- A1 (Finds an area)\n- A2\n" in said
    assert "needle-force in 90-small-unit: not yet tried. It is for A1 (Finds an area); A2" in said


def test_an_outcome_is_shown_from_four_fifths_of_its_points_on() -> None:
    progress = Progress()
    for exercise, points in (("seat-area", 0.5), ("needle-force", 4.0), ("float-lift", 3.0)):
        one = mark("right", points, exercise)
        progress = progress.after(UNIT, one, DAY, shown=False)
    assert advise(progress, [EXERCISES]).missing == ("A1",)  # 4.5 of 6, and 7 of 7 for A2


def test_when_all_is_done_there_is_nothing_left() -> None:
    progress = Progress()
    for exercise in EXERCISES:
        one = mark("right", exercise.points, exercise.id)
        progress = progress.after(UNIT, one, DAY, shown=False)
    assert repr(advise(progress, [EXERCISES])).startswith("3 of 3 exercises done.\nNothing is left")


def test_the_command_next_says_what_to_do(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    course = new_course(tmp_path / "course")
    mine = ["--into", str(tmp_path / "mine")]
    assert main(["next", *mine]) == 2
    assert "must lie in the study folder, got none in" in capsys.readouterr().err
    assert main(["study", "--course", str(course.root), *mine, "--no-lab"]) == 0
    assert main(["next", *mine]) == 0
    assert f"Next: unit {UNIT}: A small unit, not yet begun" in capsys.readouterr().out


def test_a_real_units_exercises_lead_on(tmp_path: Path) -> None:
    real = load("02-float-bowl")
    said = advise(Progress(), [real])
    assert [one.unit for one in said.suggestions] == ["02-float-bowl"]
