"""What comes back is read whatever it is, and put in order before it is run."""

import copy
import json
import os
from pathlib import Path
from typing import Any

import nbformat
import pytest
from fuelmarks.authoring.build import source_notebook
from fuelmarks.course.notebook import NotebookNode, grade_id, new_cell, notebook, text_of
from fuelmarks.gradebook.submission import MISSING, SubmissionError, put_in_order, read_submission
from hypothesis import given
from hypothesis import strategies as st

from tests.small_unit import EXERCISES, TEXT

UNREADABLE = {
    "empty": (b"", "must be a whole notebook, got a damaged file"),
    "broken off": (b'{"cells": [{"cell_type": "code", "sou', "got a damaged file"),
    "not text": (b"\xff\xfe\x00\x01", "got a damaged file"),
    "a list": (b"[1, 2]", "must be a notebook with a list of cells"),
    "no cells": (b'{"nbformat": 4}', "must be a notebook with a list of cells"),
    "an old notebook": (b'{"nbformat": 3, "worksheets": []}', "with a list of cells"),
    "nested too deep": (b"[" * 100_000, "got a damaged file"),
    "too many cells": (b'{"cells": [' + b"{}," * 2000 + b"{}]}", "2000 cells or fewer, got 2001"),
}
ANYTHING = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
    max_leaves=8,
)
NAMES = st.sampled_from(["cell_type", "source", "metadata", "attachments", "id", "outputs"])
KINDS = st.sampled_from(["code", "markdown", "raw", "strange"])


@pytest.fixture(scope="module")
def frame(tmp_path_factory: pytest.TempPathFactory) -> NotebookNode:
    """A notebook as it is handed out, more or less."""
    text = tmp_path_factory.mktemp("unit") / "unit.md"
    text.write_text(TEXT)
    return source_notebook(text, EXERCISES, text.parent)


def order(cells: list[NotebookNode]) -> list[str]:
    return [grade_id(cell) for cell in cells if grade_id(cell)]


def at(cells: list[NotebookNode], name: str) -> int:
    return next(number for number, cell in enumerate(cells) if grade_id(cell) == name)


@pytest.mark.parametrize(("raw", "rule"), UNREADABLE.values(), ids=UNREADABLE)
def test_unreadable_files_are_named(tmp_path: Path, raw: bytes, rule: str) -> None:
    (tmp_path / "a.ipynb").write_bytes(raw)
    with pytest.raises(SubmissionError, match=rule):
        read_submission(tmp_path / "a.ipynb")


def test_a_file_of_fifty_megabytes_is_not_read(tmp_path: Path) -> None:
    with (tmp_path / "a.ipynb").open("wb") as file:
        file.truncate(50_000_000)
    with pytest.raises(SubmissionError, match="must be smaller than 21 MB, got 50 MB"):
        read_submission(tmp_path / "a.ipynb")


def test_a_link_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "key").write_text("{}")
    (tmp_path / "a.ipynb").symlink_to(tmp_path / "key")
    with pytest.raises(SubmissionError, match="must be a plain file"):
        read_submission(tmp_path / "a.ipynb")


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.ipynb")
    with pytest.raises(SubmissionError, match="must be a plain file, got another kind"):
        read_submission(tmp_path / "a.ipynb")


@given(cells=st.lists(st.dictionaries(NAMES, ANYTHING | KINDS), max_size=6))
def test_cells_of_any_shape_become_sound_ones(
    tmp_path_factory: pytest.TempPathFactory, frame: NotebookNode, cells: list[Any]
) -> None:
    path = tmp_path_factory.mktemp("any") / "a.ipynb"
    path.write_text(json.dumps({"cells": cells}))
    found = put_in_order(read_submission(path)[1].cells, frame)
    nbformat.validate(found)
    text_of(found).encode()


def test_what_was_handed_out_comes_through_unchanged(frame: NotebookNode) -> None:
    found = put_in_order(frame.cells, frame)
    assert [cell.source for cell in found.cells] == [cell.source for cell in frame.cells]


def test_a_locked_cell_gets_its_text_back(frame: NotebookNode) -> None:
    cells = copy.deepcopy(frame.cells)
    cells[at(cells, "90-needle-force")].source = "print('full marks')"
    found = put_in_order(cells, frame).cells
    assert found[at(found, "90-needle-force")].source.startswith("hand_over(")


def test_an_answer_keeps_the_trainees_text(frame: NotebookNode) -> None:
    cells = copy.deepcopy(frame.cells)
    cells[at(cells, "90-needle-force-answer")].source = "needle_force = 3"
    found = put_in_order(cells, frame).cells
    assert found[at(found, "90-needle-force-answer")].source == "needle_force = 3"


def test_the_first_of_two_copies_counts_and_the_other_is_run_as_plain_code(
    frame: NotebookNode,
) -> None:
    cells = copy.deepcopy(frame.cells)
    cells.append(copy.deepcopy(cells[at(cells, "90-needle-force")]))
    found = put_in_order(cells, frame).cells
    assert order(found) == order(frame.cells)
    assert (found[-1].source, dict(found[-1].metadata)) == (cells[-1].source, {})


def test_moved_cells_go_back_and_take_the_cells_after_them_along(frame: NotebookNode) -> None:
    cells = copy.deepcopy(frame.cells)
    moved = [cells.pop(at(cells, "90-seat-area-answer")), new_cell("code", "after = 1")]
    found = put_in_order(cells + moved, frame).cells
    assert order(found) == order(frame.cells)
    assert found[at(found, "90-seat-area-answer") + 1].source == "after = 1"


def test_deleted_cells_come_back_and_an_answer_without_code(frame: NotebookNode) -> None:
    cells = [cell for cell in frame.cells if "needle-force" not in grade_id(cell)]
    found = put_in_order(cells, frame).cells
    assert order(found) == order(frame.cells)
    assert found[at(found, "90-needle-force-answer")].source == MISSING


def test_an_empty_notebook_becomes_the_frame(frame: NotebookNode) -> None:
    assert order(put_in_order([], frame).cells) == order(frame.cells)


def test_unlocked_retyped_and_repriced_cells_get_their_marks_back(frame: NotebookNode) -> None:
    cells = copy.deepcopy(frame.cells)
    number = at(cells, "90-needle-force")
    marks = {**cells[number].metadata.nbgrader, "points": 1000, "locked": False}
    cells[number] = new_cell("markdown", "x", metadata={"nbgrader": marks, "deletable": True})
    found = put_in_order(cells, frame).cells
    again = found[at(found, "90-needle-force")]
    assert (again.cell_type, again.metadata.nbgrader.points) == ("code", 4)
    assert again.metadata.nbgrader.locked


def test_claims_about_the_notebook_itself_are_dropped(frame: NotebookNode) -> None:
    claimed = notebook(frame.cells, {"kernelspec": {"name": "evil"}, "title": "<script>"})
    assert put_in_order(claimed.cells, frame).metadata == frame.metadata


KEEPERS: dict[str, tuple[dict[str, Any], bool]] = {
    "a picture": ({"a.png": {"image/png": "iVBORw0KGgo="}}, True),
    "a page": ({"a.html": {"text/html": "PHNjcmlwdD4="}}, False),
    "no base64": ({"a.png": {"image/png": '"><script>'}}, False),
}


@pytest.mark.parametrize(("attached", "kept"), KEEPERS.values(), ids=KEEPERS)
def test_only_pictures_stay_attached(
    frame: NotebookNode, attached: dict[str, Any], kept: bool
) -> None:
    cell = new_cell("markdown", "![](attachment:a.png)")
    cell["attachments"] = attached
    assert ("attachments" in put_in_order([cell], frame).cells[0]) == kept


def test_half_a_sign_in_the_name_of_a_picture_keeps_nothing_from_being_written(
    frame: NotebookNode,
) -> None:
    """JSON can hold half of a pair of UTF-16; UTF-8 cannot (RFC 8259, section 8.2)."""
    cell = new_cell("markdown", "![](attachment:a.png)")
    cell["attachments"] = {"\ud800.png": {"image/png": "iVBORw0KGgo="}}
    kept = put_in_order([cell], frame)
    assert kept.cells[0].attachments == {"?.png": {"image/png": "iVBORw0KGgo="}}
    assert text_of(kept).encode()
