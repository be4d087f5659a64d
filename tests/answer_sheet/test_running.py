"""An answer counts only if the cell that sets it has run through since."""

import sys
from collections.abc import Iterator

import pytest
from fuelcircuits.answer_sheet import sheet
from fuelcircuits.answer_sheet.running import Runs, variables_set
from fuelmarks.course.notebook import new_cell
from fuelmarks.course.notebook import notebook as new_notebook
from IPython.core.interactiveshell import InteractiveShell
from IPython.utils.capture import capture_output
from nbclient import NotebookClient
from traitlets.config import Config

from tests.ending import ends

UNIT = "02-float-bowl"
BEGIN = f'from fuelcircuits import Q, begin, hand_over\nbegin("{UNIT}")'
HAND_OVER = (
    f'hand_over("{UNIT}", "needle-force", lambda: needle_force, unit="N", low=0.05, high=20)'
)
SETS = [
    ("needle_force = 3", {"needle_force"}),
    ("a, b = 1, 2", {"a", "b"}),
    ("*a, b = c", {"a", "b"}),
    ("x = needle_force = 3", {"x", "needle_force"}),
    ("if x:\n    needle_force: float = 3", {"needle_force"}),
    ("a += 1; b //= 2", {"a", "b"}),
    ("a = ", {"a"}),
    ("a == b", set()),
    ("f(a, b=3)", set()),
    ("a.b = 3", set()),
    ("# a = 3", set()),
    (HAND_OVER, set()),
]
LONG = [" " * 10**6, "a" * 10**6, "a," * 10**6, "a:" * 10**6, "a=\n" * 10**6, "a " * 10**6]


class Notebook:
    """Cells that are run one by one, and what was told of them."""

    def __init__(self, shell: InteractiveShell) -> None:
        self.shell = shell

    def run(self, source: str, cell_id: str | None = None) -> None:
        with capture_output():
            self.shell.run_cell(source, cell_id=cell_id)  # type: ignore[no-untyped-call]

    def told(self) -> tuple[str, str]:
        """Return the kind and the words that handing over shows."""
        with capture_output() as caught:
            self.shell.run_cell(HAND_OVER)  # type: ignore[no-untyped-call]
        (output,) = caught.outputs
        return output.data[sheet.MIME]["kind"], output.data["text/plain"]


@pytest.fixture(scope="module")
def shell(tmp_path_factory: pytest.TempPathFactory) -> Iterator[InteractiveShell]:
    config = Config({"HistoryManager": {"enabled": False}})
    folder = str(tmp_path_factory.mktemp("ipython"))
    main = sys.modules["__main__"]
    yield InteractiveShell.instance(config=config, ipython_dir=folder)
    InteractiveShell.clear_instance()
    sys.modules["__main__"] = main


@pytest.fixture
def notebook(shell: InteractiveShell, monkeypatch: pytest.MonkeyPatch) -> Notebook:
    monkeypatch.setattr(sheet, "_runs", Runs())
    shell.reset()  # type: ignore[no-untyped-call]
    found = Notebook(shell)
    found.run(BEGIN)
    return found


@pytest.mark.parametrize(("source", "names"), SETS)
def test_the_names_that_a_cell_sets_are_told_from_its_text(source: str, names: set[str]) -> None:
    assert variables_set(source) == names


@pytest.mark.parametrize("source", LONG)
def test_no_text_keeps_that_busy(source: str) -> None:
    with ends():
        variables_set(source)


def test_an_answer_in_quotes_is_handed_over(notebook: Notebook) -> None:
    notebook.run('needle_force = "0.9 lbf"')
    kind, words = notebook.told()
    assert (kind, words) == (
        "text",
        "Handed over: 0.9 lbf. The kind is right, the size is believable.",
    )


@pytest.mark.parametrize(
    ("source", "error"),
    [
        ('needle_force = Q(0.9, "lbff")', "QuantityError"),
        ("needle_force = 0.9 lbf", "SyntaxError"),
        ("needle_force = 1 / 0", "ZeroDivisionError"),
        ('needle_force = "9 N"\nundefined', "NameError"),
        ("raise KeyboardInterrupt\nneedle_force = 3", "KeyboardInterrupt"),
    ],
)
def test_the_old_value_does_not_count_after_an_error(
    notebook: Notebook, source: str, error: str
) -> None:
    notebook.run('needle_force = "1.2 N"')
    notebook.run(source)
    for _ in range(2):
        kind, words = notebook.told()
        assert kind == "other"
        assert words.startswith(
            f"Nothing handed over: the cell with your answer stopped with {error}"
        )
    notebook.run(BEGIN)
    assert notebook.told()[0] == "other"


def test_the_answers_own_cell_is_known_by_its_id(notebook: Notebook) -> None:
    notebook.run('needle_force = "1.2 N"', "02-needle-force-answer")
    notebook.run("1 / 0", "02-needle-force-answer")
    assert "stopped with ZeroDivisionError" in notebook.told()[1]
    notebook.run("1 / 0", "02-float-weight-answer")
    notebook.run('needle_force = "1.2 N"', "02-needle-force-answer")
    assert "believable" in notebook.told()[1]


def test_a_cell_put_right_counts_again(notebook: Notebook) -> None:
    notebook.run("needle_force = 1 / 0")
    notebook.run('needle_force = "1.2 N"')
    assert "believable" in notebook.told()[1]


def test_an_error_in_another_cell_changes_nothing(notebook: Notebook) -> None:
    notebook.run('needle_force = "1.2 N"')
    notebook.run("print(needle_force, end=1 / 0)")
    assert "believable" in notebook.told()[1]


def test_a_name_without_a_value_is_said_and_raises_nothing(notebook: Notebook) -> None:
    notebook.run('needle_froce = "1.2 N"')
    kind, words = notebook.told()
    assert kind == "other"
    assert words.startswith("Nothing handed over: needle_force has no value yet.")


def test_what_was_not_run_again_is_no_new_try(notebook: Notebook) -> None:
    notebook.run('needle_force = "1.2 N"')
    assert "handed this over before" not in notebook.told()[1]
    assert "If you have changed your answer, run its cell first." in notebook.told()[1]
    assert sheet._begun[UNIT].tries == {"needle-force": 1}
    notebook.run('needle_force = "1.3 N"')
    assert "handed this over before" not in notebook.told()[1]
    assert sheet._begun[UNIT].tries == {"needle-force": 2}


def test_jupyters_own_kernel_tells_how_a_cell_ended() -> None:
    sources = {
        "02-begin": BEGIN,
        "02-needle-force-answer": 'needle_force = "1.2 N"',
        "02-needle-force": HAND_OVER,
        "edited": 'needle_force = Q(0.9, "lbff")',
        "again": HAND_OVER,
    }
    cells = [new_cell("code", source, name=name) for name, source in sources.items()]
    ran = NotebookClient(
        new_notebook(cells, {}), kernel_name="python3", allow_errors=True
    ).execute()
    told = [cell.outputs[0].data["text/plain"] for cell in (ran.cells[2], ran.cells[4])]
    assert "believable" in told[0]
    assert "stopped with QuantityError" in told[1]
    shown = "\n".join(ran.cells[3].outputs[0].traceback)
    assert "course knows, got 'lbff'; write lbf" in shown
    assert "site-packages" not in shown
