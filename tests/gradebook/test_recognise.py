"""A notebook without its marks is read by what its cells say, and written words are found."""

import copy
from collections.abc import Callable

import pytest
from fuelmarks.authoring.build import source_notebook
from fuelmarks.course.notebook import NotebookNode, grade_id, new_cell
from fuelmarks.gradebook.submission import put_in_order

from tests.small_unit import EXERCISES, TEXT

WORDS = "The float lifts until what comes in equals what goes out."
Change = Callable[[list[NotebookNode]], None]


@pytest.fixture(scope="module")
def frame(tmp_path_factory: pytest.TempPathFactory) -> NotebookNode:
    """A notebook as it is handed out, more or less."""
    text = tmp_path_factory.mktemp("unit") / "unit.md"
    text.write_text(TEXT)
    return source_notebook(text, EXERCISES, text.parent)


@pytest.fixture
def cells(frame: NotebookNode) -> list[NotebookNode]:
    """The cells of a notebook in which one answer was written."""
    own: list[NotebookNode] = copy.deepcopy(frame.cells)
    own[at(own, "90-needle-force-answer")].source = "needle_force = 3"
    return own


def at(cells: list[NotebookNode], name: str) -> int:
    return next(number for number, cell in enumerate(cells) if grade_id(cell) == name)


def source(cells: list[NotebookNode], frame: NotebookNode, name: str) -> str:
    found = put_in_order(cells, frame).cells
    return str(found[at(found, name)].source)


def strip_marks(cells: list[NotebookNode]) -> None:
    for cell in cells:
        cell.metadata = {}


def strip_all(cells: list[NotebookNode]) -> None:
    strip_marks(cells)
    for number, cell in enumerate(cells):
        cell.id = f"{number:08x}"


STRIPPED: dict[str, Change] = {"metadata": strip_marks, "metadata and ids": strip_all}


@pytest.mark.parametrize("strip", STRIPPED.values(), ids=STRIPPED)
def test_every_cell_is_known_again_without_its_marks(
    frame: NotebookNode, cells: list[NotebookNode], strip: Change
) -> None:
    strip(cells)
    found = put_in_order(cells, frame).cells
    names = [grade_id(cell) for cell in frame.cells if grade_id(cell)]
    assert [grade_id(cell) for cell in found if grade_id(cell)] == names
    assert len(found) == len(frame.cells)
    assert found[at(found, "90-needle-force-answer")].source == "needle_force = 3"


@pytest.mark.parametrize("strip", STRIPPED.values(), ids=STRIPPED)
def test_a_stripped_answer_is_found_between_cells_of_ones_own(
    frame: NotebookNode, cells: list[NotebookNode], strip: Change
) -> None:
    cells.insert(at(cells, "90-needle-force-answer"), new_cell("code", "area = 2", name="own"))
    strip(cells)
    assert source(cells, frame, "90-needle-force-answer") == "needle_force = 3"


def test_a_stripped_answer_written_far_from_its_question_is_found_by_its_name(
    frame: NotebookNode, cells: list[NotebookNode]
) -> None:
    cells.append(cells.pop(at(cells, "90-needle-force-answer")))
    strip_all(cells)
    assert source(cells, frame, "90-needle-force-answer") == "needle_force = 3"


def test_of_two_copies_the_one_that_was_written_in_counts(
    frame: NotebookNode, cells: list[NotebookNode]
) -> None:
    place = at(cells, "90-needle-force-answer")
    twin = copy.deepcopy(cells[place])
    cells[place].source = frame.cells[place].source
    cells.append(twin)
    assert source(cells, frame, "90-needle-force-answer") == "needle_force = 3"


def test_a_name_that_is_only_compared_is_no_answer(
    frame: NotebookNode, cells: list[NotebookNode]
) -> None:
    place = at(cells, "90-needle-force-answer")
    cells.insert(place, new_cell("code", "needle_force == 7", name="own"))
    strip_all(cells)
    assert source(cells, frame, "90-needle-force-answer") == "needle_force = 3"


def in_its_cell(cells: list[NotebookNode]) -> None:
    cells[at(cells, "90-say-it")].source = WORDS


def below_it(cells: list[NotebookNode]) -> None:
    cells.insert(at(cells, "90-say-it") + 1, new_cell("markdown", WORDS, name="own"))


def above_it(cells: list[NotebookNode]) -> None:
    cells.insert(at(cells, "90-say-it"), new_cell("markdown", WORDS, name="own"))


def instead_of_it(cells: list[NotebookNode]) -> None:
    cells[at(cells, "90-say-it")] = new_cell("raw", WORDS, name="own")


def under_the_question(cells: list[NotebookNode]) -> None:
    cell = cells[at(cells, "90-say-it-ask")]
    cell.source = cell.source.partition("\n\n===")[0] + f"\n\n{WORDS}"


def in_a_code_cell(cells: list[NotebookNode]) -> None:
    cells.insert(at(cells, "90-say-it") + 1, new_cell("code", WORDS, name="own"))


def in_a_second_copy(cells: list[NotebookNode]) -> None:
    twin = copy.deepcopy(cells[at(cells, "90-say-it")])
    twin.source = WORDS
    cells.append(twin)


def at_the_top(cells: list[NotebookNode]) -> None:
    cells.insert(0, new_cell("markdown", WORDS, name="own"))


def of_another_kind(cells: list[NotebookNode]) -> None:
    cell = cells[at(cells, "90-say-it")]
    cell.source, cell.cell_type = WORDS, "code"


PLACES: dict[str, Change] = {
    place.__name__: place
    for place in (
        *(in_its_cell, below_it, above_it, instead_of_it, under_the_question),
        *(in_a_code_cell, in_a_second_copy, at_the_top, of_another_kind),
    )
}


@pytest.mark.parametrize("strip", [lambda cells: None, *STRIPPED.values()], ids=["", *STRIPPED])
@pytest.mark.parametrize("write", PLACES.values(), ids=PLACES)
def test_written_words_are_found_wherever_they_stand(
    frame: NotebookNode, cells: list[NotebookNode], write: Change, strip: Change
) -> None:
    write(cells)
    strip(cells)
    assert WORDS in source(cells, frame, "90-say-it")


@pytest.mark.parametrize("write", [below_it, above_it, in_a_code_cell])
def test_words_that_were_found_stand_there_once(
    frame: NotebookNode, cells: list[NotebookNode], write: Change
) -> None:
    write(cells)
    found = put_in_order(cells, frame).cells
    assert [cell.source for cell in found].count(WORDS) == 1


@pytest.mark.parametrize("text", ["", " \n", "*Write your  answer here.*"])
def test_an_answer_left_empty_is_as_it_was_handed_out(
    frame: NotebookNode, cells: list[NotebookNode], text: str
) -> None:
    cells[at(cells, "90-say-it")].source = text
    assert source(cells, frame, "90-say-it").split() == ["*Write", "your", "answer", "here.*"]


def test_a_changed_text_of_the_unit_is_no_answer(
    frame: NotebookNode, cells: list[NotebookNode]
) -> None:
    cells[0].source += "\n\n(done)"
    assert source(cells, frame, "90-say-it") == "*Write your answer here.*"


def test_a_picture_comes_along_with_words_found_elsewhere(
    frame: NotebookNode, cells: list[NotebookNode]
) -> None:
    below_it(cells)
    cells[at(cells, "90-say-it") + 1]["attachments"] = {"a.png": {"image/png": "iVBORw0KGgo="}}
    found = put_in_order(cells, frame).cells
    assert found[at(found, "90-say-it")].attachments == {"a.png": {"image/png": "iVBORw0KGgo="}}
