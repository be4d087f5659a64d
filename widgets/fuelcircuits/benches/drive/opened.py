"""A part's own bench at the state of a moment: its controls, and what is to be said of them."""

from collections.abc import Iterator, Mapping
from math import floor, isclose, log10
from typing import Any, NamedTuple

from fuelcircuits.benches import bench_class, class_name
from fuelcircuits.benches.drive.parts import Part, parts_of
from fuelcircuits.benches.drive.taken import Seen, Taken, taken, there
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import ANGLE, SPEED, TEMPERATURE, Measure, System
from fuelcircuits.errors import RangeError
from fuelcircuits.faults import find
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Opened", "opened"]

FEW = 4
"""Figures to which a value is told."""
NAMED: dict[str, tuple[str, Measure, float]] = {
    "speed": ("Engine speed", SPEED, 1.0),
    "throttle": ("Throttle angle", ANGLE, 0.01),
    "choke": ("Choke plate", ANGLE, 0.05),
    "outside": ("Air outside", TEMPERATURE, 1.0),
    "bowl": ("Fuel in the bowl", TEMPERATURE, 1.0),
}
"""Words for what a bench may have no control for, its measure, and a difference that is none."""


class Opened(NamedTuple):
    """A part's bench at the state of a moment."""

    stem: str
    values: dict[str, float | str]  # of those controls that a moment sets, in SI
    at: float | None  # s of the bench's run that the moment is
    line: str  # of Python, that opens it in a notebook
    notes: tuple[str, ...]  # what its bench cannot show of the moment


class Given(NamedTuple):
    """What one control gets."""

    label: str
    measure: Measure
    asked: float  # by the moment [SI]
    value: float  # to a few figures, inside the ends of the control

    @property
    def inside(self) -> bool:
        """Tell whether the moment lay inside the ends of the control, but for the last figure."""
        return isclose(self.asked, self.value, rel_tol=10.0 ** (1 - FEW), abs_tol=1e-6)


def opened(stem: str, rig: Rig, seen: Seen, system: System = "SI") -> Opened:
    """Return how a part's bench stands at a moment.

    A fault that is known comes over as far as the bench has a control for what it changed. A
    hidden one stays on the drive, for it would be given away.

    Parameters
    ----------
    stem
        That of a part that the rig has.
    rig
        The healthy one.
    seen
        The moment.
    system
        The side of the units switch, in which notes are told.

    Raises
    ------
    RangeError
        If there is no such part.
    """
    parts = parts_of(rig)
    if stem not in parts:
        raise RangeError(f"part must be one of {', '.join(parts)}, got {stem}")
    part, kind = parts[stem], bench_class(stem)
    faulty = _faulty(part, rig, seen)
    numbers, words = {}, {}
    for name, value in (*_of_moment(part, seen), *faulty.items()):
        if isinstance(value, str):
            words[name] = value
        else:
            numbers[name] = _within(kind.controls()[name], value)
    values: dict[str, Any] = {name: each.value for name, each in numbers.items()} | words
    at = taken(part.at, seen) if part.at else None
    settings = values if at is None else values | {"at": round(float(at), 2)}
    notes = [_clamped(each, system) for each in numbers.values() if not each.inside]
    return Opened(
        stem,
        values,
        settings.get("at"),
        _line(stem, settings, needs_rig=kind.needs_rig),
        (*notes, *_fixed(part, rig, seen, system), part.leaves, *_fault(faulty, seen)),
    )


def _line(stem: str, settings: dict[str, Any], *, needs_rig: bool) -> str:
    """Return the line of Python that opens a bench at its settings."""
    sets = (f"bench.{name} = {value!r}" for name, value in settings.items())
    return "; ".join([f"bench = {class_name(stem)}({'rig' if needs_rig else ''})", *sets, "bench"])


def _of_moment(part: Part, seen: Seen) -> Iterator[tuple[str, float | str]]:
    """Yield what controls take of a moment, where it has it."""
    for control, name in part.takes.items():
        value = taken(name, seen)
        if value is not None:
            yield control, value


def _faulty(part: Part, rig: Rig, seen: Seen) -> dict[str, float | str]:
    """Return what controls take of a fault that is known."""
    return {} if seen.driven.outing.hidden else dict(_changed(part, rig, seen.driven.car.rig))


def _changed(part: Part, rig: Rig, faulty: Rig) -> Iterator[tuple[str, float | str]]:
    """Yield controls whose entries differ between a rig and a faulty one, with what they take."""
    for control, words in part.states.items():
        for entry, word in words.items():
            if _differs(part, rig, faulty, entry):
                yield control, word
    ways = ((part.sizes, _size), (part.moved, _move), (part.lost, _loss))
    for entries, way in ways:
        for control, entry in entries.items():
            if _differs(part, rig, faulty, entry):
                yield control, way(part.entry(rig, entry), part.entry(faulty, entry))


def _differs(part: Part, rig: Rig, faulty: Rig, entry: str) -> bool:
    return bool(part.entry(rig, entry) != part.entry(faulty, entry))


def _size(_: float, now: float) -> float:
    return now


def _move(before: float, now: float) -> float:
    return now - before


def _loss(before: float, now: float) -> float:
    return 1.0 - now / before


def _fault(came: Mapping[str, Taken], seen: Seen) -> list[str]:
    """Return what is to be said of a fault."""
    if seen.driven.outing.hidden:
        return ["What is wrong with the car stays hidden: this bench is healthy."]
    if not seen.driven.fault:
        return []
    words = find(seen.driven.fault).meaning.rstrip(".")
    if any(isinstance(value, str) for value in came.values()):
        return [f"The fault came along, as bad as the bench has it. {words}."]
    return [f"The fault {'came along' if came else 'stayed on the drive'}. {words}."]


def _within(control: Control, asked: float) -> Given:
    """Return a value to a few figures, inside the ends of its control."""
    value = min(max(_rounded(asked), control.low), control.high)
    return Given(control.label, control.measure, asked, value)


def _rounded(value: float) -> float:
    """Return a value to a few figures."""
    return round(value, FEW - 1 - floor(log10(abs(value)))) if value else 0.0


def _clamped(given: Given, system: System) -> str:
    """Return the words for a control that could not follow."""
    was, now = (given.measure.text(each, system) for each in (given.asked, given.value))
    side = "highest" if given.value < given.asked else "lowest"
    return f"{given.label} was {was}, and stands at the bench's {side}, {now}."


def _fixed(part: Part, rig: Rig, seen: Seen, system: System) -> Iterator[str]:
    """Yield the words for what the bench has no control for, and has otherwise than the moment."""
    for name, value in part.fixed.items():
        label, kind, none = NAMED[name]
        was, now = float(taken(name, seen) or 0.0), there(value, name, rig, seen)
        if abs(was - now) > none:
            told, other = kind.text(was, system), kind.text(now, system)
            yield f"{label} was {told}, and is {other} there."
