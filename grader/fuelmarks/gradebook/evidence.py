"""What a run notebook proves: the record of each answer, or the reason why there is none."""

import math
from collections.abc import Mapping
from typing import Any

from fuelcircuits.answer_sheet.refusals import UNSET
from fuelcircuits.answer_sheet.running import variables_set
from fuelcircuits.answer_sheet.sheet import MIME

from fuelmarks.course.notebook import NotebookNode
from fuelmarks.gradebook.submission import MISSING
from fuelmarks.questions import ExerciseSet

__all__ = ["evidence"]

LATE = {"KeyboardInterrupt", "CellTimeoutError", "timeout"}
TEXTS = ("unit", "exercise", "kind", "units", "text", "detail")


def evidence(
    notebook: NotebookNode, exercise_set: ExerciseSet
) -> tuple[dict[str, Mapping[str, Any]], dict[str, str]]:
    """Return the records by exercise, and for exercises without one what went wrong.

    A record counts for the exercise whose locked cell showed it, whatever it says itself, and
    only if the cell that last set the answer before has run through.
    """
    number = exercise_set.unit[:2]
    cells = {cell.id: cell for cell in notebook.cells if cell.cell_type == "code"}
    stopped = _stopped(notebook)
    records: dict[str, Mapping[str, Any]] = {}
    faults: dict[str, str] = {}
    for exercise in exercise_set:
        answer = cells.get(f"{number}-{exercise.id}-answer")
        hand_over = cells.get(f"{number}-{exercise.id}")
        fault = stopped.get((f"{number}-{exercise.id}", exercise.variable), "")
        record = None if fault else _record(hand_over)
        if record and record["detail"] == UNSET:
            record, fault = None, "NameError"
        if record:
            records[exercise.id] = record
        elif answer and answer.source != MISSING and (fault := fault or _fault(hand_over)):
            faults[exercise.id] = fault
    return records, faults


def _stopped(notebook: NotebookNode) -> dict[tuple[str, str], str]:
    """Return by cell and name what stopped the last cell that set the name before the cell."""
    found: dict[tuple[str, str], str] = {}
    last: dict[str, str] = {}
    for cell in notebook.cells:
        if cell.cell_type == "code":
            found |= {(cell.id, name): fault for name, fault in last.items() if fault}
            last |= dict.fromkeys(variables_set(cell.source, cell.id), _fault(cell))
    return found


def _record(cell: NotebookNode | None) -> Mapping[str, Any] | None:
    """Return the record shown by `cell`, if it shows exactly one and nothing went wrong."""
    outputs = cell.outputs if cell else []
    if any(output.output_type == "error" for output in outputs):
        return None
    shown = [output.data[MIME] for output in outputs if MIME in output.get("data", {})]
    return _sound(shown[0]) if len(shown) == 1 else None


def _sound(record: Any) -> Mapping[str, Any] | None:
    """Return `record` if it has the shape of one."""
    if not isinstance(record, Mapping) or record.get("v") != 1:
        return None
    magnitude = record.get("magnitude")
    if magnitude is not None and not (type(magnitude) in (int, float) and _finite(magnitude)):
        return None
    return dict(record) if all(isinstance(record.get(key), str) for key in TEXTS) else None


def _finite(number: float) -> bool:
    """Return whether `number` is a finite float."""
    try:
        return math.isfinite(float(number))
    except OverflowError:
        return False


def _fault(cell: NotebookNode | None) -> str:
    """Return the name of the error in `cell`, ``timeout``, or nothing."""
    outputs = cell.outputs if cell else []
    names = [output.ename for output in outputs if output.output_type == "error"]
    if LATE.intersection(names):
        return "timeout"
    return str(names[0]) if names else ""
