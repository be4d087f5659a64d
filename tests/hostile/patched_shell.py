"""Hangs itself into the hooks that run before and after each cell."""

from typing import Any

from fuelcircuits.answer_sheet.sheet import MIME, record
from IPython.core.interactiveshell import InteractiveShell

shell = InteractiveShell.instance()


def answer(*_: Any) -> None:
    """Publish an answer to whatever is asked."""
    shell.display_pub.publish({MIME: record("02-float-bowl", "inlet-area", 1.5)})


shell.events.register("pre_run_cell", answer)
shell.events.register("post_run_cell", answer)
