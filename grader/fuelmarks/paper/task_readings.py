"""What the benches show at a lesson's tasks: worked out from how they are set, never typed.

``task_readings.toml`` says of each task which bench, which controls are moved in each step, and
which readings tell; `says = false` leaves the bench's own sentence out. The bench does the rest,
on the rig that the unit works with.
"""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import isclose
from typing import Any

from fuelcircuits.benches import BENCHES, open_bench
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CircuitError
from fuelcircuits.quantities.trade_units import labelled, scale

from fuelmarks.course.course import Course, CourseError
from fuelmarks.questions.frame.worded import number_with_unit

__all__ = ["FILE", "Shown", "Step", "task_readings"]

FILE = "task_readings.toml"
NEEDED = ("task", "bench", "show", "steps")
ENTRIES = (*NEEDED, "says")
START = "as it starts"


@dataclass(frozen=True)
class Step:
    """One setting of a bench: how it is set, its readings, and the sentence it says."""

    setting: str
    readings: tuple[str, ...]
    says: str


@dataclass(frozen=True)
class Shown:
    """What a bench shows at one task; `labels` head the readings of each step."""

    task: int
    title: str
    labels: tuple[str, ...]
    steps: tuple[Step, ...]

    @property
    def says(self) -> bool:
        """Say whether any step has a sentence."""
        return any(step.says for step in self.steps)


def task_readings(course: Course, unit: str, rig: str) -> Iterator[Shown]:
    """Yield what the tasks of `unit` show on the rig of that name; nothing without the file.

    Raises `CourseError` that names file, unit, task, rule and value where an entry cannot be used.
    """
    path = course.root / FILE
    if not path.exists():
        return
    try:
        found = tomllib.loads(path.read_text(encoding="utf-8")).get(unit, [])
    except tomllib.TOMLDecodeError as error:
        raise CourseError(f"{path} must be TOML, got: {error}") from error
    for entry in found:
        yield _Reader(f"{path}: {unit}, task {entry.get('task')}", entry).shown(course, rig)


class _Reader:
    """Sets a bench as one entry says and reads it; `where` names the entry in messages."""

    def __init__(self, where: str, entry: Mapping[str, Any]) -> None:
        self.where, self.entry = where, entry
        if strange := [name for name in entry if name not in ENTRIES]:
            raise self.refuse(f"entries must be {', '.join(ENTRIES)}", strange[0])
        if missing := [name for name in NEEDED if name not in entry]:
            raise self.refuse(f"entries must be {', '.join(NEEDED)}", f"no {missing[0]}")
        if entry["bench"] not in BENCHES:
            raise self.refuse(f"bench must be one of {', '.join(BENCHES)}", entry["bench"])

    def refuse(self, rule: str, value: object) -> CourseError:
        """Return the error that says which rule was broken by what."""
        return CourseError(f"{self.where}: {rule}, got {value!r}")

    def shown(self, course: Course, rig: str) -> Shown:
        """Return what the bench shows at every step."""
        bench = open_bench(self.entry["bench"], read_rig(course.root / "rigs" / f"{rig}.toml"))
        labels = tuple(self.entry["show"])
        steps = tuple(self._step(bench, moved, labels) for moved in self.entry["steps"])
        return Shown(self.entry["task"], bench.title, labels, steps)

    def _step(self, bench: Bench, moved: Mapping[str, Any], labels: tuple[str, ...]) -> Step:
        """Return one step; where the bench has no state, the sentence says why."""
        words, values = [], {}
        for name, text in moved.items():
            try:
                said, values[name] = self._setting(bench, name, text)
            except CircuitError as error:
                raise CourseError(f"{self.where}: {error}") from error
            words.append(said)
        setting = ", ".join(words) or START
        try:
            state = bench.state(values)
        except CircuitError as error:
            return Step(setting, ("–",) * len(labels), f"{error}")
        readings = tuple(self._reading(state, one) for one in labels)
        return Step(setting, readings, state.verdict if self.entry.get("says", True) else "")

    def _setting(self, bench: Bench, name: str, text: Any) -> tuple[str, Any]:
        """Return how a control is set, in words and as the bench takes it."""
        control = bench.inputs().get(name)
        if control is None:
            raise self.refuse(f"control must be one of {', '.join(bench.inputs())}", name)
        if isinstance(text, bool):
            return control.label, control.checked(text)
        if not isinstance(control, Control):
            options: Mapping[str, str] = getattr(control, "options", {})
            return f"{control.label}: {options.get(text, text)}", control.checked(text)
        number, unit = number_with_unit(name, text)
        way = scale(unit) if unit else None
        value = number if way is None else way.factor * number + way.offset
        ends = (end for end in (control.low, control.high) if isclose(value, end, rel_tol=1e-9))
        value = next(ends, value)
        shown = labelled(f"{number:g}", unit) if unit else f"{number:g}"
        return f"{control.label} {shown}", control.checked(value)

    def _reading(self, state: State, label: str) -> str:
        """Return a reading of the table or of a gauge, as text; of a run, that at its start."""
        for one in state.readings:
            if one.label == label:
                return one.text("SI")
        for gauge in state.gauges:
            if gauge.label == label:
                value = gauge.value[0] if isinstance(gauge.value, list) else gauge.value
                return gauge.measure.text(value, "SI")
        known = [one.label for one in state.readings] + [one.label for one in state.gauges]
        raise self.refuse(f"show must name readings, {', '.join(known)}", label)
