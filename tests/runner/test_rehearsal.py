"""What is rehearsed before the first fork is loaded, and nothing else of it is there."""

from fuelmarks.runner import Cell, Runner

HANDED_OUT = (
    "from fuelcircuits import FloatBowlBench, begin, hand_over\n"
    'sheet = begin("02-float-bowl", trainee="specimen", mode="class")\nforce = "1 N"',
    'hand_over("02-float-bowl", "force", lambda: force, unit="N", low=0, high=9)',
    "%%writefile left.txt\nbehind",
    "1 / 0",
)
LOADED = "import sys\n'fuelcircuits.benches.float_bowl.bench' in sys.modules"
LEFT = """
from pathlib import Path
from fuelcircuits.answer_sheet import sheet as own
names = [name for name in ("force", "sheet", "begin") if name in globals()]
heard = get_ipython().events.callbacks["post_run_cell"]
begun = own._begun, own._runs.count, get_ipython().custom_exceptions
names, begun, len(heard), Path("left.txt").exists(), len(In)
"""


def seen(runner: Runner, *sources: str) -> list[str]:
    cells = [Cell(str(number), source) for number, source in enumerate(sources)]
    return [outcome.text.strip() for outcome in runner.run(cells).outcomes]


def test_what_was_rehearsed_is_loaded_and_all_else_is_as_without() -> None:
    with Runner() as plain, Runner(rehearsal=[Cell(one, one) for one in HANDED_OUT]) as rehearsed:
        assert seen(plain, LOADED) == ["False"]
        assert seen(rehearsed, LOADED) == ["True"]
        assert seen(rehearsed, LEFT) == seen(plain, LEFT) == ["([], ({}, 0, ()), 0, False, 2)"]


def test_what_is_too_long_to_rehearse_is_left() -> None:
    with Runner(rehearsal=[Cell("long", f"x = '{'x' * 200_000}'")]) as runner:
        assert seen(runner, "1 + 1") == ["2"]
