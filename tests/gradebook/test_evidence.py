"""What a run notebook proves: a record counts only if what set its answer ran through."""

from typing import Any

import pytest
from fuelcircuits.answer_sheet.refusals import UNSET
from fuelcircuits.answer_sheet.sheet import MIME, record
from fuelmarks.course.notebook import NotebookNode, new_cell, notebook
from fuelmarks.gradebook.evidence import evidence
from fuelmarks.gradebook.submission import MISSING

from tests.small_unit import EXERCISES, UNIT

OLD = dict(record(UNIT, "seat-area", "3 mm2"))
UNSET_RECORD = {**OLD, "kind": "other", "text": "", "detail": UNSET}


def cell(name: str, source: str, error: str = "", shown: Any = None) -> NotebookNode:
    made = new_cell("code", source, name=name)
    if shown:
        made.outputs.append({"output_type": "display_data", "data": {MIME: shown}})
    if error:
        made.outputs.append({"output_type": "error", "ename": error})
    made.outputs = [NotebookNode(one) for one in made.outputs]  # type: ignore[no-untyped-call]
    return made


def hand_over(shown: Any = OLD) -> NotebookNode:
    return cell("90-seat-area", "hand_over(…)", shown=shown)


def proved(*cells: NotebookNode) -> tuple[bool, str]:
    """Return whether there is a record of the first exercise, and what went wrong."""
    records, faults = evidence(notebook(cells, {}), EXERCISES)
    return "seat-area" in records, faults.get("seat-area", "")


ANSWER = cell("90-seat-area-answer", 'seat_area = "3 mm2"')
BROKEN = cell("90-seat-area-answer", "seat_area = Q(3, 'mm2x')", "QuantityError")


@pytest.mark.parametrize(
    ("cells", "found"),
    [
        ((ANSWER, hand_over()), (True, "")),
        ((BROKEN, hand_over()), (False, "QuantityError")),
        ((cell("own", "seat_area = 3"), BROKEN, hand_over()), (False, "QuantityError")),
        ((BROKEN, cell("own", "seat_area = 3"), hand_over()), (True, "")),
        ((ANSWER, cell("own", "seat_area = x", "NameError"), hand_over()), (False, "NameError")),
        ((ANSWER, cell("own", "print(x)", "NameError"), hand_over()), (True, "")),
        ((ANSWER, hand_over(), cell("own", "seat_area = x", "NameError")), (True, "")),
        ((cell("90-seat-area-answer", "1 / 0", "timeout"), hand_over()), (False, "timeout")),
        (
            (cell("90-seat-area-answer", "sear_area = 3"), hand_over(UNSET_RECORD)),
            (False, "NameError"),
        ),
        ((cell("90-seat-area-answer", MISSING), hand_over(UNSET_RECORD)), (False, "")),
    ],
)
def test_a_record_counts_only_if_what_set_the_answer_ran_through(
    cells: tuple[NotebookNode, ...], found: tuple[bool, str]
) -> None:
    assert proved(*cells) == found
