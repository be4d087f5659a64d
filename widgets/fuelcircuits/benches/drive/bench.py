"""The bench on which the whole carburettor is driven: one answer for every question of a page.

Nothing here runs by itself. Whoever shows the bench asks for so many steps with the pedal of that
moment, and is told what they come to; a page asks Python in the browser, a notebook the kernel.
"""

from collections.abc import Callable, Mapping
from importlib.resources import files
from math import pi
from typing import TYPE_CHECKING, Any, ClassVar, cast

from fuelcircuits.benches.carburettor.measures import ALTITUDE, WATER
from fuelcircuits.benches.drive.drawing import place, whole
from fuelcircuits.benches.drive.driven import STEP, Driven, Moment, away, onward
from fuelcircuits.benches.drive.foot import GEARS, Foot
from fuelcircuits.benches.drive.journeys import JOURNEYS, trace_of
from fuelcircuits.benches.drive.limits import TASKS, judged
from fuelcircuits.benches.drive.opened import opened
from fuelcircuits.benches.drive.outing import ENGINES, Outing, outing_in
from fuelcircuits.benches.drive.parts import BREATH, parts_of
from fuelcircuits.benches.drive.row import Row, row_of
from fuelcircuits.benches.drive.scripts import (
    BEHIND,
    DRIVE,
    DRIVE_STATIC,
    DRIVE_STYLE,
    NOTEBOOK,
)
from fuelcircuits.benches.drive.trace import LONGEST, Trace, feet_in, packed, trace_in
from fuelcircuits.benches.drive.words import said
from fuelcircuits.benches.frame.measure import (
    FLOW,
    RATIO,
    SECONDS,
    SHARE,
    SPEED,
    TEMPERATURE,
    VACUUM,
    Measure,
    System,
    measure,
)
from fuelcircuits.benches.frame.scripts import STYLES, bundle, styles
from fuelcircuits.errors import CardError, CircuitError, RangeError
from fuelcircuits.faults import FAULTS, fitting
from fuelcircuits.physics.network.rig import Rig

if TYPE_CHECKING:
    from fuelcircuits.benches.frame.widget import AskedBench

__all__ = ["DriveBench"]

WORDS = "The drive. Run the cell above it to drive: click into the cell, then Shift+Enter."
ROAD_SPEED = measure("m/s", ("km/hour", 0), ("mile/hour", 0))
EVERY = 2
"""Steps from one row that is told to the next."""
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
PULL = 7.6e5
"""Mean pressure of a good engine at full throttle, by which its sound is loud [Pa]."""


class Running:
    """One drive as it goes on: the car, everything now, and what the driver has done."""

    def __init__(self, outing: Outing, rig: Rig) -> None:
        self.driven, self.now = away(outing, rig)
        self.feet: list[Foot] = []

    def step(self, foot: Foot) -> None:
        """Go one step on."""
        if len(self.feet) >= LONGEST:
            raise RangeError(f"drive must have at most {LONGEST} steps, got more")
        self.now = onward(self.driven, self.now, foot)
        self.feet.append(foot)


class DriveBench:
    """The whole carburettor, driven."""

    title: ClassVar[str] = "The carburettor driven"
    picture: ClassVar[str] = "drive.svg"
    needs_rig: ClassVar[bool] = True

    def __init__(self, rig: Rig) -> None:
        for name in NEEDED:
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.rig = rig
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
        measures = {
            "fuel": FLOW,
            "mixture": RATIO,
            "speed": SPEED,
            "pedal": SHARE,
            "road": ROAD_SPEED,
            "vacuum": VACUUM,
            "port": WATER,
            "altitude": ALTITUDE,
            "outside": TEMPERATURE,
            "time": SECONDS,
        }
        return {
            "title": self.title,
            "drawing": whole((files(__package__) / self.picture).read_text("utf-8")),
            "rig": self.rig.name,
            "step": STEP,
            "every": EVERY,
            "longest": LONGEST,
            "rows": list(Row._fields),
            "gears": list(GEARS),
            "engines": dict(ENGINES),
            "faults": {name: FAULTS[name].meaning for name in fitting(self.rig)},
            "journeys": {
                name: {"title": each.title, "look": each.look, "limits": name in TASKS}
                for name, each in JOURNEYS.items()
            },
            "parts": {stem: part.name for stem, part in parts_of(self.rig).items()},
            "measures": {name: each.wire() for name, each in measures.items()},
            "gauges": _gauges(self.rig),
            "cylinders": round(self.rig.engine.cylinders),
            "torque": PULL * self.rig.engine.displacement / (4 * pi),
            "outing": Outing(rig=self.rig.name).named,
        }

    def first(self) -> dict[str, Any]:
        """Return what is shown before anything is asked for."""
        return self.begin({})

    def begin(self, outing: Mapping[str, Any], car: str = "own") -> dict[str, Any]:
        """Begin a drive, and return how it stands; `car` is a name to go on with it under."""
        settled = outing_in({**outing, "rig": self.rig.name})
        self._drives[car] = Running(settled, self.rig)
        return self._told(self._drives[car], [])

    def go(self, feet: list[list[Any]], car: str = "own", quiet: bool = False) -> dict[str, Any]:
        """Go on by the steps that rows of feet tell; return a row for every second of them.

        Where the model finds no balance the drive stops there, and the answer says so. `quiet`
        leaves out all but the rows.
        """
        drive = self._drives.get(car)
        if drive is None:
            raise RangeError(f"drive must have begun before it goes on, got none called {car}")
        rows: list[list[float | None]] = []
        stopped = ""
        try:
            for foot in feet_in(feet):
                drive.step(foot)
                if len(drive.feet) % EVERY == 0:
                    rows.append(_wire(row_of(drive.driven, drive.now)))
        except CircuitError as error:
            stopped = str(error)
        told = {"rows": rows} if quiet else self._told(drive, rows)
        return told | ({"stopped": stopped} if stopped else {})

    def journey(self, name: str) -> dict[str, Any]:
        """Return outing and feet of a set journey."""
        if name not in JOURNEYS:
            raise RangeError(f"journey must be one of {', '.join(JOURNEYS)}, got {name}")
        return _packed(trace_of(JOURNEYS[name], self.rig.name))

    def save(self, car: str = "own") -> dict[str, Any]:
        """Return the text of a drive so far."""
        drive = self._drives[car]
        trace = Trace(drive.driven.outing, tuple(drive.feet))
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
        told = opened(stem, self.rig, self._drives["own"].driven, Row(*row), system)
        return told._asdict() | {"notes": list(told.notes)}

    def tell(self, car: str = "own") -> dict[str, Any]:
        """Return what is wrong with the car."""
        driven = self._drives[car].driven
        name = driven.fault
        words = FAULTS[name].meaning if name else "Nothing is wrong with it."
        return {"fault": name, "words": words, "severity": driven.outing.severity}

    def judge(self, task: str, car: str = "own") -> dict[str, Any]:
        """Return which limits of a task a drive has kept so far, driven again from its start."""
        drive = self._drives[car]
        found = judged(Trace(drive.driven.outing, tuple(drive.feet)), self.rig, task)
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

    def _told(self, drive: Running, rows: list[list[float | None]]) -> dict[str, Any]:
        """Return how a drive stands, with rows that led there."""
        row = row_of(drive.driven, drive.now)
        spoken = said(row)
        return {
            "rows": rows,
            "now": _wire(row),
            "numbers": {
                name: round(value, 3)
                for name, value in place(row, _plunger(drive.driven, drive.now)).items()
            },
            "needles": _needles(row),
            "foot": list(drive.now.foot),
            "said": spoken.words,
            "alarm": spoken.alarm,
            "exhaust": spoken.exhaust,
            "steps": len(drive.feet),
        }


def _packed(trace: Trace) -> dict[str, Any]:
    return {"outing": trace.outing.named, "feet": packed(trace.feet)}


def _wire(row: Row) -> list[float | None]:
    """Return a row as the browser takes it."""
    return [float(f"{each:.6g}") for each in row]


def _plunger(driven: Driven, now: Moment) -> float:
    """Return how far the pump's plunger is down, share of its stroke."""
    return now.motion.pump.travel / driven.car.rig.pump.stroke


def _gauges(rig: Rig) -> list[dict[str, Any]]:
    """Return the dials as the browser takes them, without their needles."""
    every: tuple[tuple[str, Measure, float, float], ...] = (
        ("Engine speed", SPEED, 0.0, rig.engine.highest_speed),
        ("Manifold vacuum", VACUUM, 0.0, 90e3),
        ("Idle-port vacuum", WATER, 0.0, 7472.7),
        ("Lambda in the cylinders", RATIO, 0.4, 1.6),
        ("Road speed", ROAD_SPEED, 0.0, 45.0),
    )
    return [
        {"label": label, "measure": kind.wire(), "low": low, "high": high, "accuracy": 0.0}
        for label, kind, low, high in every
    ]


def _needles(row: Row) -> list[float | None]:
    """Return where the needles of the dials stand; that of lambda nowhere without air."""
    mixture = row.mixture if row.air > BREATH else None
    return [row.speed, row.vacuum, row.port, mixture, row.road_speed]
