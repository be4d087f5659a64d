"""Every unit of the course: its shape, its text, and what marking makes of it in a clean kernel."""

import re
from collections.abc import Mapping
from typing import Any

import pytest
from fuelmarks.authoring.build import source_notebook
from fuelmarks.authoring.checker import faults, unknown_outcomes
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import NotebookNode, grade_id, read
from fuelmarks.course.personal import study_seed
from fuelmarks.marking.marking import mark
from fuelmarks.questions import Adjustment, Choice, Selection, load
from fuelmarks.runner import Cell, Runner, RunResult

from tests.places import COURSE_FOLDER

COURSE = Course(COURSE_FOLDER)
UNITS = COURSE.units()
SEEDS = 100
CELLS = range(25, 81)
"""Cells of a unit but for its job, which is done in the shop, on top of the lesson."""
LONGEST = 180
"""Words of a cell of text, an example's numbers and signs among them."""
PARTS = (
    "Predict",
    "What is in there",
    "Try it",
    "A worked example",
    "The same with gaps",
    "Your own numbers",
    "In the shop",
    "In your own words",
    "From earlier units",
)

pytestmark = pytest.mark.parametrize("unit", UNITS)


def text(unit: str) -> str:
    """Return what people wrote."""
    return COURSE.text(unit).read_text(encoding="utf-8")


def release(unit: str) -> NotebookNode:
    """Return what a trainee opens."""
    return read(COURSE.notebook("release", unit))


def run(runner: Runner, notebook: NotebookNode) -> RunResult:
    """Run a notebook apart from everything."""
    graded: list[Mapping[str, Any]] = [cell.metadata.get("nbgrader", {}) for cell in notebook.cells]
    return runner.run(
        [
            Cell(grade_id(cell) or str(at), cell.source, bool(marks.get("points")))
            for at, (cell, marks) in enumerate(zip(notebook.cells, graded, strict=True))
            if cell.cell_type == "code"
        ]
    )


def points(unit: str, result: RunResult) -> tuple[float, float]:
    """Return what a specimen's answers earn, and what they could."""
    records = {name.removeprefix(f"{unit[:2]}-"): one for name, one in result.records.items()}
    marks = mark(load(unit), study_seed("specimen", load(unit)), records)
    return marks.points, sum(one.out_of for one in marks.marks)


def test_parts_come_in_order(unit: str) -> None:
    heads = re.findall(r"^## (.*)", text(unit), flags=re.M)
    found = [part for head in heads for part in PARTS if head.startswith(part)]
    assert found == list(PARTS)
    assert "A job comes in" in text(unit).split("## ")[0]


def test_length_is_that_of_a_lesson(unit: str) -> None:
    cells = release(unit).cells
    assert len(cells) - len(in_the_shop(cells)) in CELLS


def in_the_shop(cells: list[NotebookNode]) -> list[NotebookNode]:
    """Return the cells of the job sheets, whose steps no cell may part."""
    heads = [at for at, cell in enumerate(cells) if cell.source.startswith("## ")]
    shop = next(at for at in heads if cells[at].source.startswith("## In the shop"))
    return cells[shop : next(at for at in heads if at > shop)]


def test_cells_are_short(unit: str) -> None:
    every = release(unit).cells
    shop = [cell.id for cell in in_the_shop(every)]
    cells = [cell for cell in every if not grade_id(cell) and cell.id not in shop]
    prose = {cell.source[:40]: len(_sentences(cell)) for cell in cells if cell.cell_type != "code"}
    lines = {cell.source[:40]: cell.source.count("\n") for cell in cells}
    assert {start: count for start, count in prose.items() if count > LONGEST} == {}
    code = [cell.source[:40] for cell in cells if cell.cell_type == "code"]
    assert {start: lines[start] for start in code if lines[start] >= 12} == {}


def test_steps_of_a_job_are_counted_through_within_a_cell(unit: str) -> None:
    starts = [cell.source.splitlines()[0] for cell in in_the_shop(release(unit).cells)]
    assert [line for line in starts if re.match(r"(?!1\. )\d+\. ", line)] == []


def _sentences(cell: NotebookNode) -> list[str]:
    """Return the words of a prose cell; a table's lines are no prose."""
    lines = [line for line in cell.source.splitlines() if not line.startswith("|")]
    return " ".join(lines).split()


def test_calculations_and_questions_are_enough(unit: str) -> None:
    earlier = text(unit).split("## From earlier units")[1]
    assert len(re.findall(r"^:::\{(?:exercise|choice)\}", earlier, flags=re.M)) >= 2
    assert len(load(unit).exercises) >= 8
    assert len(re.findall(r"^:::\{written\}", text(unit), flags=re.M)) == 1
    assert "### Rubric" in text(unit)
    assert sum(bool(one.follows) for one in load(unit)) >= 1
    named = (Adjustment, Choice, Selection)
    assert all(one.hints and (one.slips or isinstance(one, named)) for one in load(unit))


def test_job_sheet_has_tools_caution_and_limits(unit: str) -> None:
    sheet = text(unit).split("## In the shop")[1].split("\n## ")[0]
    assert all(word in sheet for word in ("**Tools", "Caution", "| ", "| signed |"))


def test_figures_are_told_in_words(unit: str) -> None:
    assert re.findall(r"!\[\s*\]|<img(?![^>]*alt=)", text(unit)) == []


def test_outcomes_are_explained(unit: str) -> None:
    assert unknown_outcomes(load(unit), COURSE.root / "outcomes.toml") == set()


def test_every_sheet_can_be_marked(unit: str) -> None:
    assert list(faults(load(unit), range(SEEDS))) == []


def test_model_answers_run_and_earn_everything(unit: str, runner: Runner) -> None:
    made = source_notebook(COURSE.text(unit), load(unit), COURSE.root / "rigs")
    result = run(runner, made)
    assert [one for one in result.outcomes if one.status != "ok"] == []
    earned, most = points(unit, result)
    assert earned == most > 0


def test_blank_release_runs_and_earns_nothing(unit: str, runner: Runner) -> None:
    result = run(runner, release(unit))
    assert [one for one in result.outcomes if one.status != "ok"] == []
    assert points(unit, result)[0] == 0
