"""A cell that is run too early says which cell to run first."""

import json
import os
from pathlib import Path
from typing import Any

import pytest
from fuelcircuits.answer_sheet.early import first_cell_with, install, load_ipython_extension, said
from IPython.core.interactiveshell import InteractiveShell
from jupyter_client.manager import run_kernel

CELLS = (
    "from fuelcircuits import OwnCar\n",
    "\ncar = OwnCar('mine')\ncar.card_form()",
    "with open('x') as file:\n    text = file.read()",
    "def jet(bore):\n    return bore",
    "car = (",
)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with one notebook, where it runs."""
    cells = [{"cell_type": "code", "source": text} for text in CELLS]
    (tmp_path / "own.ipynb").write_text(json.dumps({"cells": cells}))
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("OwnCar", "from fuelcircuits import OwnCar"),
        ("car", "from fuelcircuits import OwnCar"),  # which that cell needs first
        ("file", "with open('x') as file:"),
        ("jet", "def jet(bore):"),
        ("nobody", ""),
    ],
)
def test_the_first_cell_that_makes_a_name_is_found(folder: Path, name: str, line: str) -> None:
    assert first_cell_with(name, folder) == line


def test_what_a_cell_needs_and_the_notebook_has_is_not_asked_for_again(folder: Path) -> None:
    assert first_cell_with("car", folder, {"OwnCar"}) == "car = OwnCar('mine')"


def test_a_name_that_no_cell_makes_is_called_a_slip(folder: Path) -> None:
    assert "look for a slip of the pen" in said(NameError("x", name="carr"), folder)


def test_a_damaged_notebook_makes_nothing(tmp_path: Path) -> None:
    (tmp_path / "bad.ipynb").write_text("{")
    assert first_cell_with("car", tmp_path) == ""


@pytest.mark.usefixtures("folder")
def test_a_notebook_says_it_and_shows_any_other_error_as_ever(
    capsys: pytest.CaptureFixture[str],
) -> None:
    make: Any = InteractiveShell
    shell = make()
    install(shell)
    ended = shell.run_cell("car.report()")
    assert isinstance(ended.error_in_exec, NameError), "to marking it is an error as ever"
    told = capsys.readouterr().out
    assert "car is not known yet. Run this cell first" in told
    assert "Traceback" not in told
    shell.run_cell("import json\njson.loads('{')")
    assert "JSONDecodeError" in capsys.readouterr().out


def test_what_is_no_notebook_of_the_course_is_shown_as_ever(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    other = {"cells": [{"cell_type": "code", "source": "car = 1"}]}
    (tmp_path / "another.ipynb").write_text(json.dumps(other))
    monkeypatch.chdir(tmp_path)
    make: Any = InteractiveShell
    shell = make()
    load_ipython_extension(shell)
    shell.run_cell("car.report()")
    assert "Traceback" in capsys.readouterr().out


def test_any_kernel_says_it_before_a_cell_has_run(folder: Path, tmp_path: Path) -> None:
    shown: list[Any] = []
    own = {**os.environ, "IPYTHONDIR": str(tmp_path / "ipython")}
    kernel: Any
    with run_kernel(cwd=str(folder), env=own) as kernel:
        kernel.execute_interactive("car.report()", timeout=60, output_hook=shown.append)
    (error,) = (one["content"] for one in shown if one["msg_type"] == "error")
    assert "car is not known yet. Run this cell first" in error["traceback"][0]


def test_only_the_notebook_that_runs_is_looked_at_where_that_is_known(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = {"cells": [{"cell_type": "code", "source": "car = 1"}]}
    (folder / "another.ipynb").write_text(json.dumps(other))
    assert first_cell_with("car", folder) == "car = 1"
    monkeypatch.setenv("JPY_SESSION_NAME", "units/own.ipynb")
    assert first_cell_with("car", folder, {"OwnCar"}) == "car = OwnCar('mine')"
