"""Run an nbformat notebook and fill its outputs, in place of nbgrader's own execution."""

from collections.abc import Sequence
from typing import Any, Protocol

from fuelcircuits.answer_sheet.record import Record

from fuelmarks.runner.limits import Limits
from fuelmarks.runner.protocol import ANSWER_MIME, Cell, Outcome, RunResult

__all__ = ["NotebookRunner", "run_notebook"]


class NotebookRunner(Protocol):
    """What runs notebooks, here or elsewhere: its usual limits, and how many it runs at once."""

    limits: Limits
    places: int

    def run(self, cells: Sequence[Cell], limits: Limits | None = None) -> RunResult:
        """Run `cells` in order; return what became of each."""


def run_notebook(runner: NotebookRunner, notebook: Any, limits: Limits | None = None) -> Any:
    """Run the code cells of `notebook` and replace their outputs; return the same notebook.

    A cell that nbgrader's metadata calls graded and locked hands a value over; its source must
    already be the instructor's. Outputs are plain text, one error, and the answer record.
    """
    cells = {str(i): cell for i, cell in enumerate(notebook.cells) if cell.cell_type == "code"}
    asked = [Cell(name, cell.source, _hands_over(cell)) for name, cell in cells.items()]
    result = runner.run(asked, limits)
    for count, outcome in enumerate(result.outcomes, start=1):
        cell = cells[outcome.cell]
        reached = outcome.status != "not-reached"
        cell.execution_count = count if reached else None
        cell.outputs = _outputs(outcome, result.records.get(outcome.cell), type(cell))
    return notebook


def _hands_over(cell: Any) -> bool:
    marks = cell.metadata.get("nbgrader", {})
    return bool(marks.get("grade")) and not marks.get("solution")


def _outputs(outcome: Outcome, record: Record | None, node: Any) -> list[Any]:
    outputs: list[dict[str, Any]] = []
    if record is not None:
        data = {ANSWER_MIME: node(record), "text/plain": outcome.text}
        outputs.append({"output_type": "display_data", "data": node(data), "metadata": node()})
    elif outcome.text:
        outputs.append({"output_type": "stream", "name": "stdout", "text": outcome.text})
    if outcome.status != "ok":
        outputs.append(_error(outcome))
    return [node(output) for output in outputs]


def _error(outcome: Outcome) -> dict[str, Any]:
    name = outcome.error or outcome.status
    line = f"{name}: {outcome.message}" if outcome.message else name
    return {"output_type": "error", "ename": name, "evalue": outcome.message, "traceback": [line]}
