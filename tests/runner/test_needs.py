"""Slow libraries are loaded for the notebooks that ask for them, and change nothing for others."""

import pytest
from fuelmarks.runner import Cell, Runner
from fuelmarks.runner.needs import SIGNS, needs

LOADED = "import sys\n'matplot' + 'lib.py' + 'plot' in sys.modules, 'anywid' + 'get' in sys.modules"
FOUND = "plt = getattr(__import__('matplot' + 'lib.py' + 'plot'), 'py' + 'plot')"
PLOTS = "import matplotlib.pyplot as plt\nplt.plot([0, 1])\nlen(plt.get_fignums())"


@pytest.mark.parametrize(
    ("source", "asked"),
    [
        ("bench = PumpBench(rig)\nbench", []),
        (PLOTS, ["matplotlib.pyplot"]),
        ("bench.figure()", ["matplotlib.pyplot"]),
        ("OwnCar()", ["ipywidgets", "anywidget"]),
    ],
)
def test_what_a_notebook_asks_for_is_known_by_its_words(source: str, asked: list[str]) -> None:
    assert needs([Cell("a", "1 + 1"), Cell("b", source)]) == asked
    assert set(asked) <= SIGNS.keys()


def text(runner: Runner, *sources: str) -> list[str]:
    cells = [Cell(str(number), source) for number, source in enumerate(sources)]
    return [outcome.text.strip() for outcome in runner.run(cells).outcomes]


def test_they_are_loaded_once_a_notebook_asks_and_found_by_one_that_hides_its_words() -> None:
    hidden = f"{FOUND}\nlen(plt.get_fignums())"
    with Runner() as runner:
        assert text(runner, LOADED) == ["(False, False)"]
        assert text(runner, hidden, LOADED) == ["0", "(True, False)"]
        assert text(runner, LOADED) == ["(False, False)"]
        assert text(runner, PLOTS)[0].splitlines()[0] == "1"
        assert text(runner, LOADED) == ["(True, False)"]
        assert text(runner, LOADED, "# a widget") == ["(True, True)", ""]
