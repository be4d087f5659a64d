"""The instructor's pack: made from the units, complete, and every outcome met often enough."""

import tomllib
from pathlib import Path

import pytest
from fuelcircuits.benches import BENCHES
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.unit_text import filled_text
from fuelmarks.paper.lesson_plan import lesson
from fuelmarks.paper.outcomes_map import Mapped, map_table, outcomes_map
from fuelmarks.paper.pack import lesson_page, slides, slides_page, term_page

from tests.places import COURSE_FOLDER

COURSE = Course(COURSE_FOLDER)
UNITS = COURSE.units()
OUTCOMES = list(outcomes_map(COURSE))


@pytest.mark.parametrize("one", OUTCOMES, ids=lambda one: one.code)
def test_an_outcome_is_taught_practised_and_assessed_or_observed(one: Mapped) -> None:
    assert one.taught
    assert one.practised
    if one.outcome.watched:
        assert one.sheets
        assert one.observed
    else:
        assert one.tasks >= 2
        assert len(one.assessed) >= 2


def test_every_outcome_of_knowing_is_assessed_in_two_units() -> None:
    knowing = [one for one in OUTCOMES if not one.outcome.watched]
    assert len(knowing) > 50
    assert {one.code: one.units for one in knowing if len(one.units) < 2} == {}


def test_outcomes_go_by_the_unit_that_teaches_them() -> None:
    knowing = [one for one in OUTCOMES if not one.outcome.watched]
    assert [one.taught for one in knowing] == sorted(one.taught for one in knowing)
    # Unit 12 asks what unit 14 goes into: asked before it is taught, so the list names the unit.
    late = {one.code: (one.taught, one.units) for one in knowing if one.taught != one.units[0]}
    assert late == dict.fromkeys(("ARD-1", "ARD-2"), ("14", ("12", "14")))


def test_what_says_that_hands_do_it_is_of_doing() -> None:
    hands = ("Sets", "Strips", "Rebuilds", "Cleans", "Takes", "Road", "Tests", "Adjusts", "Repairs")
    assert [one.code for one in OUTCOMES if one.title.startswith(hands)] == [
        one.code for one in OUTCOMES if one.outcome.watched and one.title.startswith(hands)
    ]


def test_every_job_sheet_gives_occasion_to_watch_something() -> None:
    sheets = {unit for one in OUTCOMES for unit in one.sheets}
    assert {unit[:2] for unit in UNITS} - {"00"} <= sheets


def test_the_table_of_outcomes_has_a_line_for_each() -> None:
    rows = map_table(OUTCOMES)
    assert rows[0][4:] == ["taught", "practised", "assessed", "asked by", "observed"]
    assert [row[0] for row in rows[1:]] == [one.code for one in OUTCOMES]


def test_a_job_sheet_that_is_none_is_refused(tmp_path: Path) -> None:
    (tmp_path / "units").mkdir()
    (tmp_path / "outcomes.toml").write_text('[J]\nkind = "doing"\njobs = ["44-none"]\n')
    with pytest.raises(CourseError, match=r"jobs of J must be units with a job sheet, got '44-n"):
        list(outcomes_map(Course.at(tmp_path)))


def test_every_outcome_is_on_the_map() -> None:
    known = tomllib.loads((COURSE.root / "outcomes.toml").read_text(encoding="utf-8"))
    assert {outcome.code for outcome in OUTCOMES} == set(known)


@pytest.mark.parametrize("unit", UNITS)
def test_the_parts_of_a_lesson_fill_its_minutes(unit: str) -> None:
    plan = lesson(COURSE, unit)
    assert sum(part.minutes for part in plan.parts) == plan.minutes
    assert min(part.minutes for part in plan.parts) >= 5
    assert 60 <= plan.minutes <= 120


@pytest.mark.parametrize("unit", UNITS)
def test_a_lesson_plan_has_all_that_is_laid_out(unit: str) -> None:
    plan = lesson(COURSE, unit)
    for found in (plan.complaint, plan.predictions, plan.tasks, plan.tools, plan.slips):
        assert found
    assert len(plan.cautions) >= 2
    assert plan.rubrics[0][1]


@pytest.mark.parametrize("unit", UNITS)
def test_every_caution_of_the_job_sheet_is_on_the_lesson_plan(unit: str) -> None:
    text = filled_text(COURSE.text(unit), COURSE.root / "rigs")
    shop = text.split("## In the shop")[1]
    written = shop.split("\n## ")[0].count("**Caution")
    assert len(lesson(COURSE, unit).cautions) == written
    assert lesson_page(COURSE, unit).count("<li>") >= written


def test_the_term_plan_names_every_unit_and_outcome() -> None:
    page = term_page(COURSE)
    for unit in UNITS:
        assert f"{unit[:2]} {lesson(COURSE, unit).title}" in page
    assert all(outcome.code in page for outcome in OUTCOMES)


def test_every_bench_has_a_slide() -> None:
    made = list(slides(COURSE))
    assert len({one.title for one in made}) == len(BENCHES)
    assert slides_page(COURSE).count('class="slide"') == len(made)


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        ("minutes = 10\ndemonstration = 'x'", "must be between 30 and 300, got 10"),
        ("minutes = 90", "must have a demonstration"),
        ("minutes = ", "term plan must be a file of TOML"),
    ],
)
def test_a_plan_that_cannot_be_used_is_refused(tmp_path: Path, entry: str, message: str) -> None:
    unit = UNITS[0]
    for name in ("units", "rigs"):
        (tmp_path / name).symlink_to(COURSE.root / name)
    (tmp_path / "term_plan.toml").write_text(f'["{unit}"]\n{entry}\n')
    with pytest.raises(CourseError, match=message):
        lesson(Course(tmp_path), unit)
