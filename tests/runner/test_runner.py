"""Running a notebook: as Jupyter would, within limits, and with nothing but values coming back."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import nbformat
import pytest
from fuelcircuits.answer_sheet.sheet import MIME, record
from fuelmarks.runner import Cell, Limits, Runner, run_notebook
from nbclient import NotebookClient

from tests.ending import ends
from tests.runner.asking import cells, statuses

# What a cell means is what Jupyter's own kernel makes of it; these run in both, in this order.
CELLS = [
    "2 + 3",
    "_ * 2",
    "x = 5; x",
    "x;",
    "'kept'\n'shown'",
    "print('printed')\n'shown'",
    "import asyncio\nawait asyncio.sleep(0, 'awaited')",
    "async def later():\n    return 7\nawait later()",
    "1 / 0",
    "def broken(:",
    "  x = 1\n y = 2",
    "undefined_name",
    "Out[1], In[1]",
    "__name__",
    "from IPython.display import Markdown, display\ndisplay('one', 'two')\ndisplay(Markdown('m'))",
    "%matplotlib inline\nimport matplotlib.pyplot as plt\nplt.plot([1, 2]);",
    "plt.gcf();",
    "fig, axes = plt.subplots()\nplt.show()",
    "fig",
    "%config InlineBackend.figure_format = 'svg'",
    "%%capture kept\nprint('hidden')",
    "kept.stdout",
    "from fuelcircuits.quantities.units import Q\nQ(2.0, 'psi')",
    "import numpy as np\nnp.arange(3.0)",
    "raise ValueError('said so')",
    "assert x == 6, 'not six'",
    "class Odd(Exception): ...\nraise Odd",
    "get_ipython() is not None",
    "raise KeyboardInterrupt",
]
HAND_OVER = """
from fuelcircuits.answer_sheet.sheet import hand_over
hand_over("u", "e", 2.5, unit="N", low=1, high=9)
"""
ANSWER = dict(record("02-float-bowl", "needle-force", 1.5))


@pytest.fixture(scope="module")
def runner() -> Iterator[Runner]:
    with Runner(limits=Limits(cell_seconds=20, notebook_seconds=60)) as runner:
        yield runner


@pytest.fixture(scope="module")
def kernel_says() -> list[tuple[str, str]]:
    """Return error class and plain text of every cell, from Jupyter's own kernel."""
    notebook = notebook_of(*[(source, {}) for source in CELLS])
    NotebookClient(notebook, kernel_name="python3", allow_errors=True, timeout=60).execute()
    return [(_error(cell), _text(cell)) for cell in notebook.cells]


def _error(cell: Any) -> str:
    return "".join(str(o.ename) for o in cell.outputs if o.output_type == "error")


def _text(cell: Any) -> str:
    shown = [o.text if o.output_type == "stream" else _plain(o) for o in cell.outputs]
    return "\n".join(text.strip() for text in shown if text.strip())


def _plain(output: Any) -> str:
    return str(output.get("data", {}).get("text/plain", ""))


def notebook_of(*cells: tuple[str, dict[str, Any]]) -> Any:
    code: dict[str, Any] = {
        "cell_type": "code",
        "execution_count": None,
        "outputs": [],
        "metadata": {},
    }
    made = [{**code, "id": f"c{i}", "source": s, **more} for i, (s, more) in enumerate(cells)]
    whole = {"nbformat": 4, "nbformat_minor": 5, "metadata": {}, "cells": made}
    return nbformat.from_dict(whole)  # type: ignore[no-untyped-call]


def test_cells_mean_what_they_mean_in_jupyter(
    runner: Runner, kernel_says: list[tuple[str, str]]
) -> None:
    outcomes = runner.run(cells(*CELLS)).outcomes
    mine = [(o.error, "\n".join(filter(None, o.text.strip().split("\n")))) for o in outcomes]
    assert dict(zip(CELLS, mine, strict=True)) == dict(zip(CELLS, kernel_says, strict=True))


@pytest.mark.parametrize(
    ("source", "message"),
    [
        ("1\n2 / 0", "division by zero (line 2)"),
        ("1\n\nx = (", "(line 3)"),
        ("import json\njson.loads('{')", "(line 2)"),
        ("exec('1 / 0')", "division by zero (line 1)"),
    ],
)
def test_an_error_tells_the_line_of_the_cell(runner: Runner, source: str, message: str) -> None:
    outcome = runner.run(cells(source)).outcomes[0]
    assert outcome.message.endswith(message)


@pytest.mark.parametrize("source", ["exit", "exit()", "quit()", "input()", "!ls", "%%bash\nls"])
def test_what_a_marked_notebook_cannot_do_costs_only_that_cell(runner: Runner, source: str) -> None:
    assert statuses(runner, source, "x = 1")[1] == "ok"


@pytest.mark.parametrize(
    "module",
    [
        "numpy",
        "pint",
        "matplotlib.pyplot",
        "ipywidgets",
        "anywidget",
        "fuelcircuits.answer_sheet.sheet",
    ],
)
def test_what_notebooks_use_is_there_and_warm(runner: Runner, module: str) -> None:
    warm = cells(f"import sys\n{module!r} in sys.modules", f"import {module}")
    assert [(o.status, o.text) for o in runner.run(warm).outcomes] == [("ok", "True\n"), ("ok", "")]


def test_figures_are_made_and_saved_though_nothing_is_painted(runner: Runner) -> None:
    plot = "import matplotlib.pyplot as plt\nfig, axes = plt.subplots()\naxes.plot([1, 3])"
    save = "fig.canvas.draw()\nfig.savefig('a.png')\nfig.savefig('a.svg')\naxes.get_ylim()"
    outcomes = runner.run(cells(plot, save)).outcomes
    assert [o.status for o in outcomes] == ["ok", "ok"]
    assert outcomes[1].text == "(np.float64(0.9), np.float64(3.1))\n"


def test_each_notebook_starts_from_nothing(runner: Runner) -> None:
    first = cells("import numpy\nnumpy.mine = secret = 1")
    second = cells("hasattr(__import__('numpy'), 'mine'), 'secret' in globals()", "Out")
    assert runner.run(first).outcomes[0].status == "ok"
    assert runner.run(second).outcomes[0].text == "(False, False)\n"


def test_a_late_cell_is_interrupted_and_the_rest_goes_on(runner: Runner) -> None:
    late = statuses(runner, "x = 1", "while True: pass", "x", cell_seconds=1)
    assert late == ["ok", "timeout", "ok"]


def test_a_late_notebook_is_stopped(runner: Runner) -> None:
    with ends():
        late = statuses(runner, "1", "import time; time.sleep(90)", "1", notebook_seconds=1.5)
    assert late == ["ok", "timeout", "not-reached"]


def test_a_cell_that_prints_too_much_is_cut(runner: Runner) -> None:
    result = runner.run(cells("print('é' * 5000)"), Limits(output_bytes=1000))
    assert result.outcomes[0].status == "ok"
    assert 900 < len(result.outcomes[0].text) <= 1000


def test_a_cell_that_prints_for_ever_costs_only_that_cell(runner: Runner) -> None:
    source = "while True: print('x' * 10_000)"
    found = statuses(runner, source, "1", cell_seconds=4, memory_bytes=256 << 20)
    assert found == ["timeout", "ok"]


def test_records_come_from_cells_that_hand_over_only(runner: Runner) -> None:
    result = runner.run([Cell("own", HAND_OVER), Cell("locked", HAND_OVER, hands_over=True)])
    assert {cell: given["magnitude"] for cell, given in result.records.items()} == {"locked": 2.5}


def test_two_cells_cannot_have_one_name(runner: Runner) -> None:
    with pytest.raises(ValueError, match="cell ids must be unique"):
        runner.run([Cell("a", ""), Cell("a", "")])


def test_notebooks_that_run_side_by_side_are_not_mixed_up(runner: Runner) -> None:
    sleepy = "import time; time.sleep({}); {}"
    notebooks = [cells(sleepy.format(0.02 * (number % 3), number)) for number in range(24)]
    with ThreadPoolExecutor(4) as pool:
        results = pool.map(runner.run, notebooks)
        assert [r.outcomes[0].text for r in results] == [f"{number}\n" for number in range(24)]


def test_a_notebook_gets_its_outputs(runner: Runner) -> None:
    locked = {"nbgrader": {"grade": True, "solution": False, "grade_id": "e"}}
    notebook = run_notebook(
        runner,
        notebook_of(("1 + 1\nprint('said')", {}), (HAND_OVER, {"metadata": locked}), ("1 / 0", {})),
    )
    nbformat.validate(notebook)
    assert notebook.cells[0].outputs[0].text == "said\n"
    assert notebook.cells[1].outputs[0].data[MIME]["magnitude"] == 2.5
    assert notebook.cells[2].outputs[0].evalue == "division by zero (line 1)"


def test_old_outputs_of_a_notebook_are_thrown_away(runner: Runner) -> None:
    forged = {"output_type": "display_data", "data": {MIME: ANSWER}, "metadata": {}}
    loop = ("while True: pass", {"outputs": [forged]})
    notebook = run_notebook(runner, notebook_of(loop, loop), Limits(notebook_seconds=1))
    assert [[o.output_type for o in cell.outputs] for cell in notebook.cells] == [["error"]] * 2
