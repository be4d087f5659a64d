"""Notebooks are read and written as nbformat reads and writes them."""

from pathlib import Path

import nbformat
import pytest
from fuelmarks.course.notebook import NotebookNode, new_cell, notebook, read, short_text_of, write

from tests.places import TOP

RELEASE = sorted((TOP / "course" / "release").rglob("*.ipynb"))


def whole() -> NotebookNode:
    """Return a notebook with all that is ever told line by line."""
    picture = {"x.svg": {"image/svg+xml": "<svg>\n</svg>"}, "y.png": {"image/png": "aGVsbG8="}}
    text = new_cell("markdown", "one\ntwo\n", name="a", metadata={"nbgrader": {"points": 2}})
    text.attachments = picture
    code = new_cell("code", "print('Ω')\n\n1", name="b")
    data = {"text/plain": "1\n2", "application/json": ["1", "2"]}
    code.outputs = [
        NotebookNode(output_type="stream", name="stdout", text="Ω\n\n"),
        NotebookNode(output_type="display_data", data=data, metadata={}),
        NotebookNode(output_type="error", ename="E", evalue="no", traceback=["a\n", "b"]),
    ]
    return notebook([text, code, new_cell("raw", "", name="c")], {"k": {"lines": ["a", "b"]}})


def theirs(path: Path) -> object:
    return nbformat.read(path, as_version=4)  # type: ignore[no-untyped-call]


@pytest.mark.parametrize("path", RELEASE, ids=lambda path: path.stem)
def test_a_release_reads_as_nbformat_reads_it(path: Path) -> None:
    assert read(path) == theirs(path)


def test_what_was_written_line_by_line_or_on_one_reads_the_same(tmp_path: Path) -> None:
    made, long, short = whole(), tmp_path / "long.ipynb", tmp_path / "short.ipynb"
    write(made, long)
    short.write_text(short_text_of(made), encoding="utf-8")
    nbformat.validate(theirs(long))
    assert read(long) == theirs(long) == made
    assert read(short) == theirs(short) == made


def test_entries_are_attributes_all_the_way_down(tmp_path: Path) -> None:
    write(whole(), tmp_path / "x.ipynb")
    found = read(tmp_path / "x.ipynb")
    assert found.cells[0].metadata.nbgrader.points == 2
    found.metadata["more"] = {"deep": {"er": 1}}
    assert found.metadata.more.deep.er == 1
    with pytest.raises(AttributeError):
        found.cells[0].outputs  # noqa: B018


@pytest.mark.parametrize("text", ["[1]", '{"nbformat": 3}', "{", "7"])
def test_no_notebook_is_refused(text: str, tmp_path: Path) -> None:
    (tmp_path / "x.ipynb").write_text(text)
    with pytest.raises(ValueError, match=r"nbformat must be 4|Expecting"):
        read(tmp_path / "x.ipynb")
