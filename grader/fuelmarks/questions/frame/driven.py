"""Questions that are answered by a drive: a pedal trace, marched anew and held to limits.

A `Driven` is a choice whose options are what a drive can come to: all limits kept, or the first
that was broken. Nobody names one: the trace that is handed in is driven again by whoever marks it,
and the same trace gives the same numbers. An example of a drive stands behind every option.
`drive_task` makes one; it needs the simulators, which take a while to load.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fuelmarks.questions.frame.choice import Choice
from fuelmarks.questions.frame.exercise import Form

if TYPE_CHECKING:
    from fuelcircuits.benches.drive.judging import Judged

__all__ = ["ALL_KEPT", "Driven"]

ALL_KEPT = "all-kept"


@dataclass(frozen=True, kw_only=True)
class Driven(Choice):
    """A question answered by a drive; see the top of this file.

    `judged` returns what a drive comes to, or raises `CircuitError` if the text is none of the
    task.
    """

    judged: "Callable[[str], Judged]"
    examples: Mapping[str, str]

    @property
    def form(self) -> Form:
        """Return that it is answered by a drive."""
        return "drive"

    def outcome(self, found: "Judged") -> str:
        """Return the option that a judged drive comes to."""
        broken = [not one.kept for one in found.verdicts]
        return list(self.options)[1 + broken.index(True)] if any(broken) else ALL_KEPT

    def written(self, number: float) -> str:
        """Return the example of a drive that comes to the options of `number`."""
        return "".join(self.examples[name] for name in self.names(number))
