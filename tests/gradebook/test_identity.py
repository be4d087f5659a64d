"""In every unit of the course, each trainee's notebook is told from everybody else's."""

import copy
from pathlib import Path

import pytest
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import NotebookNode, grade_id, read
from fuelmarks.course.personal import personal
from fuelmarks.gradebook.claim import Claim, claim_in, salvaged
from fuelmarks.gradebook.identity import Numbers, misfit
from fuelmarks.gradebook.submission import put_in_order
from fuelmarks.questions import load

from tests.places import COURSE_FOLDER

UNITS = [path.parent.name for path in sorted((COURSE_FOLDER / "units").glob("*/unit.md"))]
EVERYONE = [f"t{number:03}" for number in range(1, 25)]


@pytest.fixture(params=UNITS, scope="module")
def numbers(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Numbers:
    """The numbers of a class of 24 in one unit."""
    root = tmp_path_factory.mktemp("course")
    (root / "term.toml").write_text('key = "a key for tests"\n')
    return Numbers(Course(root), load(request.param))


def given_to(numbers: Numbers, trainee: str) -> NotebookNode:
    """Return the notebook that `trainee` is handed out."""
    unit = numbers.exercise_set.unit
    release = read(COURSE_FOLDER / "release" / unit / f"{unit}.ipynb")
    return personal(release, numbers.exercise_set, numbers.sheet(trainee), trainee)


def without(notebook: NotebookNode, ending: str) -> list[NotebookNode]:
    """Return the cells but for those whose name ends so."""
    return [cell for cell in notebook.cells if not grade_id(cell).endswith(ending)]


def test_a_notebook_is_ones_own_and_nobody_elses(numbers: Numbers) -> None:
    for trainee in EVERYONE[:4]:
        claim = claim_in(given_to(numbers, trainee).cells)
        fits = {one: numbers.fit(claim, one) for one in EVERYONE}
        assert (claim.unit, claim.trainee) == (numbers.exercise_set.unit, trainee)
        assert fits[trainee].other == 0
        assert [one for one, fit in fits.items() if fit.belongs] == [trainee]


def test_every_given_is_seen(numbers: Numbers) -> None:
    claim = claim_in(given_to(numbers, "t001").cells)
    written = [one for one in numbers.exercise_set.givens if not one.drawn]
    assert numbers.fit(claim, "t001").same == len(written)


def test_the_questions_alone_tell_whose_it_is(numbers: Numbers) -> None:
    claim = claim_in(without(given_to(numbers, "t007"), "-begin"))
    assert claim.trainee == ""
    assert numbers.owner(claim, EVERYONE) == "t007"


def test_the_set_up_alone_tells_whose_it_is(numbers: Numbers) -> None:
    claim = claim_in(without(given_to(numbers, "t007"), "-ask"))
    assert misfit(numbers, claim, "t007", EVERYONE) is None
    assert numbers.owner(claim, EVERYONE) == "t007"


def test_anothers_numbers_are_told_by_their_owner(numbers: Numbers) -> None:
    cells = given_to(numbers, "t001").cells
    for cell in cells:
        cell.source = cell.source.replace('trainee="t001"', 'trainee="t021"')
    found = misfit(numbers, claim_in(cells), "t021", EVERYONE)
    assert found is not None
    assert found.words == "holds the numbers of t001 under the name of t021"


def test_another_key_is_told(numbers: Numbers, tmp_path: Path) -> None:
    (tmp_path / "term.toml").write_text('key = "another key for tests"\n')
    other = Numbers(Course(tmp_path), numbers.exercise_set)
    claim = claim_in(given_to(numbers, "t001").cells)
    found = misfit(other, claim, "t001", EVERYONE)
    assert found is not None
    assert found.kind == "other numbers"


def test_stripped_of_metadata_and_ids_it_is_still_the_same_notebook(numbers: Numbers) -> None:
    given = given_to(numbers, "t001")
    cells = copy.deepcopy(given.cells)
    for number, cell in enumerate(cells):
        cell.metadata, cell.id = {}, f"{number:08x}"
    found = put_in_order(cells, given).cells
    assert [(grade_id(one), one.source) for one in found] == [
        (grade_id(one), one.source) for one in given.cells
    ]


def test_reworded_questions_are_still_ones_own(numbers: Numbers) -> None:
    cells = given_to(numbers, "t001").cells
    for cell in cells:
        if grade_id(cell).endswith("-ask"):
            cell.source = cell.source.replace(" the ", " that ").replace("**", "")
    assert misfit(numbers, claim_in(cells), "t001", EVERYONE) is None


SAID = {
    "plain": ('sheet = begin("05-off-idle", trainee="t001", mode="class")', "05-off-idle", "t001"),
    "single quotes": ("begin('05-off-idle', trainee='t001')", "05-off-idle", "t001"),
    "lines": ('begin(\n  "05-off-idle",\n  trainee = "t001",\n)', "05-off-idle", "t001"),
    "a name with a dash": ('begin("05-off-idle", trainee="demo-001")', "05-off-idle", "demo-001"),
    "no call": ('start("05-off-idle", trainee="t001")', "", ""),
    "something else": ("begin(1, trainee=2)", "", ""),
}


@pytest.mark.parametrize(("code", "unit", "trainee"), SAID.values(), ids=SAID)
def test_a_set_up_is_read_however_it_is_written(code: str, unit: str, trainee: str) -> None:
    claim = claim_in([{"cell_type": "code", "source": code}])
    assert (claim.unit, claim.trainee) == (unit, trainee)


def test_a_set_up_shown_in_text_is_none() -> None:
    text = 'Write `begin("05-off-idle", trainee="t001")`.'
    assert claim_in([{"cell_type": "markdown", "source": text}]) == Claim()


def test_of_two_set_ups_the_one_that_was_handed_out_counts() -> None:
    own = {"nbgrader": {"grade_id": "05-begin"}}
    cells = [
        {"cell_type": "code", "source": 'begin("04-low-speed", trainee="t002")', "metadata": {}},
        {"cell_type": "code", "source": 'begin("05-off-idle", trainee="t001")', "metadata": own},
    ]
    assert claim_in(cells).unit == "05-off-idle"


def test_a_damaged_file_still_says_whose_it_is() -> None:
    raw = b'{"cells": [{"source": ["sheet = begin(\\"05-off-idle\\", trainee=\\"t001\\", mo'
    assert salvaged(raw) == Claim("05-off-idle", "t001")
    assert salvaged(raw[:60]) == Claim()
