"""The bench on which the whole carburettor is driven: one answer for every question of a page.

Nothing here runs by itself. Whoever shows the bench asks for so many steps with the pedal of that
moment, and is told what they come to; a page asks Python in the browser, a notebook the kernel.
"""

from collections.abc import Callable, Mapping
from importlib.resources import files
from typing import TYPE_CHECKING, Any, ClassVar, cast

from fuelcircuits.benches.drive.about import about
from fuelcircuits.benches.drive.drawing import whole
from fuelcircuits.benches.drive.journeys import JOURNEYS, trace_of
from fuelcircuits.benches.drive.judging import judged
from fuelcircuits.benches.drive.opened import opened
from fuelcircuits.benches.drive.outing import outing_in, wrong_with
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.drive.running import Running, Told
from fuelcircuits.benches.drive.scripts import (
    BEHIND,
    DRIVE,
    DRIVE_STATIC,
    DRIVE_STYLE,
    NOTEBOOK,
)
from fuelcircuits.benches.drive.trace import Trace, feet_in, packed, trace_in
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.scripts import STYLES, bundle, styles
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.errors import CircuitError, RangeError
from fuelcircuits.faults import find
from fuelcircuits.physics.network.rig import Rig

if TYPE_CHECKING:
    from fuelcircuits.benches.frame.widget import AskedBench

__all__ = ["DriveBench"]

WORDS = "The drive. Run the cell above it to drive: click into the cell, then Shift+Enter."
NEEDED = (
    "engine",
    "air_path",
    "float_bowl",
    "vents",
    "low_speed",
    "high_speed",
    "pump",
    "hot_soak",
)
"""Sections without which no rig can be driven."""


class DriveBench:
    """The whole carburettor, driven."""

    title: ClassVar[str] = "The carburettor driven"
    picture: ClassVar[str] = "drive.svg"
    needs_rig: ClassVar[bool] = True

    def __init__(self, rig: Rig, **outing: Any) -> None:
        """Make the bench of a rig; `outing` says how its first drive begins, as in `Outing`."""
        self.rig = with_sections(rig, *NEEDED)
        self._outing = outing_in({**outing, "rig": rig.name})
        self._drives: dict[str, Running] = {}
        self._live: AskedBench | None = None
        self._ways: dict[str, Callable[..., dict[str, Any]]] = {
            "begin": self.begin,
            "go": self.go,
            "journey": self.journey,
            "save": self.save,
            "load": self.load,
            "open": self.open_part,
            "tell": self.tell,
            "judge": self.judge,
        }

    def ask(self, do: str, **asked: Any) -> dict[str, Any]:
        """Return the answer to a question; refusals come in words, ``{"refused": [...]}``."""
        try:
            return self._ways[do](**asked)
        except CircuitError as error:
            return {"refused": str(error).splitlines()}

    def about(self) -> dict[str, Any]:
        """Return what the browser needs to build the bench."""
        drawing = whole((files(__package__) / self.picture).read_text("utf-8"))
        return {"title": self.title, "drawing": drawing} | about(self.rig, self._outing)

    def first(self) -> dict[str, Any]:
        """Return what is shown before anything is asked for."""
        return self.begin(self._outing.named)

    def begin(self, outing: Mapping[str, Any], car: str = "own") -> dict[str, Any]:
        """Begin a drive, and return how it stands; `car` is a name to go on with it under."""
        settled = outing_in({**outing, "rig": self.rig.name})
        self._drives[car] = Running(settled, self.rig)
        return self._drives[car].told | {"rows": [], "before": []}

    def go(self, feet: list[list[Any]], car: str = "own", quiet: bool = False) -> dict[str, Any]:
        """Go on by the steps that rows of feet tell, and return how the drive stands after them.

        With it come a row for every second step, and the pictures before the last one. Where the
        model finds no balance the drive stops there, and the answer says so. `quiet` leaves out
        all but the rows.
        """
        drive = self._drives.get(car)
        if drive is None:
            raise RangeError(f"drive must have begun before it goes on, got none called {car}")
        rows: list[Told] = []
        before: list[dict[str, Any]] = []
        stopped = {}
        try:
            for foot in feet_in(feet):
                drive.step(foot)
                if drive.tells:
                    rows.append(drive.row)
                    before += [] if quiet else [drive.told]
        except CircuitError as error:
            stopped = {"stopped": str(error)}
        if quiet:
            return {"rows": rows} | stopped
        now = before.pop() if drive.tells and before else drive.told
        return now | {"rows": rows, "before": before} | stopped

    def journey(self, name: str) -> dict[str, Any]:
        """Return outing and feet of a set journey."""
        if name not in JOURNEYS:
            raise RangeError(f"journey must be one of {', '.join(JOURNEYS)}, got {name}")
        return _packed(trace_of(JOURNEYS[name], self.rig.name))

    def save(self, car: str = "own") -> dict[str, Any]:
        """Return the text of a drive so far."""
        trace = self._drives[car].trace
        return {"text": trace.text, "line": trace.line}

    def load(self, text: str) -> dict[str, Any]:
        """Return outing and feet of a saved drive."""
        trace = trace_in(text)
        if trace.outing.rig != self.rig.name:
            raise RangeError(
                f"rig of the trace must be {self.rig.name}, which is here, got {trace.outing.rig}"
            )
        return _packed(trace)

    def open_part(self, stem: str, row: list[float], system: System = "SI") -> dict[str, Any]:
        """Return how the bench of a part stands at a moment, and what it cannot show of it."""
        told = opened(stem, self.rig, self._drives["own"].seen(Row(*row)), system)
        return told._asdict() | {"notes": list(told.notes)}

    def tell(self, car: str = "own") -> dict[str, Any]:
        """Return what is wrong with the car."""
        name, severity = wrong_with(self._drives[car].driven.outing, self.rig)
        words = find(name).meaning if name else "Nothing is wrong with it."
        return {"fault": name, "words": words, "severity": severity}

    def judge(self, task: str, car: str = "own") -> dict[str, Any]:
        """Return which limits of a task a drive has kept so far, driven again from its start."""
        found = judged(self._drives[car].trace, self.rig, task)
        return {
            "reached": found.reached,
            "kept": sum(one.kept for one in found.verdicts),
            "verdicts": [one._asdict() for one in found.verdicts],
        }

    @staticmethod
    def script() -> str:
        """Return what draws the bench in a notebook."""
        return "\n".join([bundle(BEHIND), bundle((*DRIVE, NOTEBOOK), DRIVE_STATIC)])

    @staticmethod
    def style() -> str:
        """Return how it looks there."""
        return f"{styles(STYLES)}\n{DRIVE_STYLE.read_text('utf-8')}"

    def widget(self) -> "AskedBench":
        """Return the live bench of a notebook: one, however often it is shown."""
        from fuelcircuits.benches.frame.widget import asked  # noqa: PLC0415 - needs anywidget

        self._live = self._live or asked(self)
        return self._live

    def _repr_mimebundle_(self, **how: Any) -> Any:
        """Show the bench."""
        live, notes = cast(Any, self.widget()._repr_mimebundle_(**how))
        return live | {"text/plain": WORDS}, notes


def _packed(trace: Trace) -> dict[str, Any]:
    return {"outing": trace.outing.named, "feet": packed(trace.feet)}
