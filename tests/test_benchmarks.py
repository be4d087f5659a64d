"""``make bench`` runs through, and keeps what was measured before something went wrong."""

import json
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from tests.benchmarks import __main__ as bench


def module(name: str, *values: float) -> ModuleType:
    """Return a module that measures these values, the last one never if it is 0."""
    made: Any = ModuleType(f"tests.benchmarks.{name}")
    made.measures = lambda: ({"name": name, "value": 1 / each, "unit": "s"} for each in values)
    return made  # type: ignore[no-any-return]


def test_every_module_measures_or_is_a_command() -> None:
    every = {one.__name__.rpartition(".")[2]: one for one in bench.modules()}
    commands = {name for name, one in every.items() if not hasattr(one, "measures")}
    assert len(every) - len(commands) >= 7
    for name in commands:
        assert '__name__ == "__main__"' in Path(str(every[name].__file__)).read_text()


def test_a_command_is_named_and_what_was_measured_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    every = [module("first", 2.0), ModuleType("tests.benchmarks.lesson"), module("last", 0.0)]
    monkeypatch.setattr(bench, "modules", lambda: iter(every))
    monkeypatch.setattr(bench, "OUT", tmp_path / "bench.json")
    with pytest.raises(ZeroDivisionError):
        bench.main()
    assert json.loads((tmp_path / "bench.json").read_text()) == [
        {"name": "first", "value": 0.5, "unit": "s"}
    ]
    assert capsys.readouterr().out.splitlines() == [
        "first: 0.5 s",
        "left out, a command of its own: python -m tests.benchmarks.lesson",
    ]
