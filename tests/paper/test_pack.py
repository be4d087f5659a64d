"""The instructor's pack: made from the units, complete, and every outcome met often enough."""

import tomllib
from pathlib import Path

import pytest
from fuelcircuits.benches import BENCHES
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.directives import split
from fuelmarks.course.unit_text import filled_text
from fuelmarks.paper.lesson_plan import lesson
from fuelmarks.paper.minutes import double_lessons, parts_of
from fuelmarks.paper.outcomes_map import Mapped, map_table, outcomes_map
from fuelmarks.paper.pace import Pace
from fuelmarks.paper.pack import lesson_page, slides, slides_page, term_page

from tests.places import COURSE_FOLDER
from tests.small_unit import EXERCISES

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
    assert sum(part.minutes for part in plan.parts) == plan.minutes + plan.home
    assert min(part.minutes for part in plan.parts) >= 5
    assert 60 <= plan.minutes <= 2 * plan.double
    assert 20 <= plan.home <= 60
    assert f"**Time.** {plan.shop} minutes" in COURSE.text(unit).read_text(encoding="utf-8")


SMALL = """
# Ten words stand here before the first heading of all

## Predict

:::{predict} level
Eight words ask what the fuel level does.

- A: it rises
- B: it falls
:::

## What is in there

Fuel comes by the needle (1) into the bowl (2).

## Try it

**Task 1.** Set it. What happens? Why?

```{code-cell} ipython3
these_words_are_not_read = True
```

**Task 2.** Drive it: watch the needle.

## Your own numbers

:::{exercise} seat-area
:::

## In the shop: not counted

One two three four five six seven eight nine ten.

## In your own words

:::{written} say-it points=4
Say it.

### Rubric
- 1 point: not read.
:::
"""


def test_minutes_are_those_that_somebody_counts_by_hand() -> None:
    pace = Pace(
        reading=1.0, look=1.0, move=10.0, drive=100.0, step=20.0, predict=30.0, written=40.0
    )
    pieces = list(split(SMALL, Path("small.md")))
    found = {part.name: part.minutes for part in parts_of(pieces, EXERCISES, pace, 12)}
    assert found == {
        "The job, and predictions": 55,  # 10 words; 14 and a choice of 30
        "Demonstration": 10,
        "What is in there, and from the trade": 10,  # 10 words, two parts to find
        "Try it": 155,  # 14 words, 3 + 1 sentences of 10, a drive of 100
        "Own numbers": 50,  # 11 words, two steps of 20
        "In your own words": 40,  # 2 words and a letter of 40
    }


@pytest.mark.parametrize(
    ("sheets", "lessons"),
    [((90,), 1), ((40, 50), 1), ((40, 55), 2), ((60, 60, 60), 3), ((), 0), ((25, 60, 35), 2)],
)
def test_sheets_go_into_double_lessons_unbroken(sheets: tuple[int, ...], lessons: int) -> None:
    assert double_lessons(sheets, 90) == lessons


def test_the_overhaul_says_how_many_double_lessons_it_takes() -> None:
    plan = lesson(COURSE, "13-overhaul")
    text = COURSE.text("13-overhaul").read_text(encoding="utf-8")
    said = "560 minutes in eleven sheets: nine double lessons, if none is broken off"
    assert said in text
    assert (plan.shop, len(plan.sheets), plan.shop_lessons) == (560, 11, 9)


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


def test_the_page_lists_cautions_and_slips() -> None:
    unit, made = "00-shop-arithmetic", {("manifold-pressure", "author", "vacuum-added"): (3, 11)}
    page = lesson_page(COURSE, unit, made)
    assert page.count("<li>") >= len(lesson(COURSE, unit).cautions)
    assert page.count("Your class: 3 of 11.") == 1
    assert "Your class" not in lesson_page(COURSE, unit)


def test_the_slips_that_a_class_has_made_come_first_with_their_numbers() -> None:
    made = {
        ("needle-force", "author", "psi-as-kpa"): (3, 11),
        ("needle-force", "family", "two-astray"): (1, 11),
    }
    (force, *_) = lesson(COURSE, "02-float-bowl", made).slips
    assert [(one.times, one.answers) for one in force.said] == [(3, 11), (1, 11), (0, 0), (0, 0)]
    assert force.said[0].words.startswith("The number of psi went in as if it were kPa.")
    assert force.said[1].words.startswith("Look for a two: two barrels, two sides")


def test_settings_have_slips_too_and_a_part_that_is_drawn_has_none_beforehand() -> None:
    slips = {one.question: one.said for one in lesson(COURSE, "05-off-idle").slips}
    assert [one.words for one in slips["screws after cleaning"]] == ["Set rich.", "Set lean."]
    assert "name the part" not in slips


def test_the_term_plan_names_every_unit_and_outcome() -> None:
    page = term_page(COURSE)
    for unit in UNITS:
        assert f"{unit[:2]} {lesson(COURSE, unit).title}" in page
    assert all(outcome.code in page for outcome in OUTCOMES)


def test_every_bench_has_a_slide() -> None:
    made = list(slides(COURSE))
    assert len({one.title for one in made}) == len(BENCHES)
    assert slides_page(made).count('class="slide"') == len(made)


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        ("minutes = 90\ndemonstration = 'x'", "no entries but demonstration, demonstration_m"),
        ("demonstration = 'x'\ndemonstration_minutes = 0", "must be between 1 and 120, got 0"),
        ("demonstration_minutes = 9", "must have a demonstration"),
        ("demonstration = ", "term plan must be a file of TOML"),
        ("demonstration = 'x'\n[pace]\nhaste = 1", "pace must be of reading, .* got 'haste'"),
        ("demonstration = 'x'\n[pace]\nreading = 0", "must be between 0.1 and 600, got 0"),
        ("demonstration = 'x'\n[pace]\nreading = true", "must be between 0.1 and 600, got True"),
    ],
)
def test_a_plan_that_cannot_be_used_is_refused(tmp_path: Path, entry: str, message: str) -> None:
    unit = UNITS[0]
    for name in ("units", "rigs"):
        (tmp_path / name).symlink_to(COURSE.root / name)
    (tmp_path / "term_plan.toml").write_text(f'["{unit}"]\n{entry}\n')
    with pytest.raises(CourseError, match=message):
        lesson(Course(tmp_path), unit)
