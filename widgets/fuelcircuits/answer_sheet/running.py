"""Whether the cell that sets an answer ran through when it was last run.

A cell that stops with an error leaves the old value in memory, and that is not what is written
in the cell. A notebook's shell says how each cell has ended; marking, which runs all cells in
order, asks the same of what it has seen itself.
"""

import re
from dataclasses import dataclass, field
from typing import Any

__all__ = ["Runs", "variable_of", "variables_set"]

NAME = r"\w{1,80}+[ \t]*+"
SETS = re.compile(
    rf"(?:\A|(?<=[\n;]))[ \t]*+((?:\*?{NAME},[ \t]*+){{0,20}}\*?{NAME}),?[ \t]*+"
    r"(?::[^=\n]{0,80}+)?(?:[-+*/%@&|^]|//|\*\*|<<|>>)?=(?!=)"
    rf"|(?<==)[ \t]*+({NAME})=(?!=)"
)
"""What stands left of an equals sign, at the head of a statement or after another such sign."""
LONGEST = 100_000
ANSWER_CELL = re.compile(r"\d\d-([a-z0-9-]{1,80})-answer")


def variable_of(exercise: str) -> str:
    """Return the name that a notebook gives the answer to `exercise`."""
    return exercise.replace("-", "_")


def variables_set(source: str, cell_id: str = "") -> frozenset[str]:
    """Return the names that a cell of this text sets, and the one its id says it is there for."""
    hits = SETS.finditer(source[:LONGEST])
    names = {name for hit in hits for name in re.findall(r"\w+", hit[1] or hit[2])}
    meant = ANSWER_CELL.fullmatch(cell_id)
    return frozenset(names | {variable_of(meant[1])} if meant else names)


@dataclass
class Runs:
    """How the last cell that sets each name has ended: the number of its run, and its error."""

    count: int = 0
    last: dict[str, tuple[int, str]] = field(default_factory=dict)

    def watch(self, shell: Any) -> None:
        """Have `shell` tell how each cell ends; to ask twice changes nothing."""
        shell.events.register("post_run_cell", self.ended)

    def forget(self, shell: Any) -> None:
        """Forget what was heard, and have `shell` tell no more."""
        if shell and self.ended in shell.events.callbacks["post_run_cell"]:
            shell.events.unregister("post_run_cell", self.ended)
        self.count, self.last = 0, {}

    def ended(self, result: Any) -> None:
        """Note how a cell has ended."""
        error = result.error_before_exec or result.error_in_exec
        name_of_error = "" if error is None else type(error).__name__
        self.count += 1
        cell_id = getattr(result.info, "cell_id", None)
        for name in variables_set(result.info.raw_cell or "", str(cell_id or "")):
            self.last[name] = (self.count, name_of_error)

    def error_of(self, variable: str) -> str:
        """Return what stopped the last cell that sets `variable`, or nothing."""
        return self.last.get(variable, (0, ""))[1]

    def run_of(self, variable: str) -> int:
        """Return the number of the run that set `variable` last, 0 if none was seen."""
        return self.last.get(variable, (0, ""))[0]
