"""A part's own bench at the state of a moment: its controls, and what is to be said of them."""

from collections.abc import Iterator
from math import floor, isclose, log10
from typing import NamedTuple

from fuelcircuits.benches import bench_class, class_name
from fuelcircuits.benches.drive.driven import Driven
from fuelcircuits.benches.drive.outing import HIDDEN
from fuelcircuits.benches.drive.parts import Part, parts_of
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import Measure, System
from fuelcircuits.errors import RangeError
from fuelcircuits.faults import FAULTS
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Opened", "opened"]

FEW = 4
"""Figures to which a value is told."""


class Opened(NamedTuple):
    """A part's bench at the state of a moment."""

    stem: str
    values: dict[str, float]  # of those controls that a moment sets, in SI
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


def opened(stem: str, rig: Rig, driven: Driven, row: Row, system: System = "SI") -> Opened:
    """Return how a part's bench stands at a moment.

    A fault that is known comes over as far as the bench has a control for the size it changed. A
    hidden one stays on the drive, for it would be given away.

    Parameters
    ----------
    stem
        That of a part that the rig has.
    rig
        The healthy one.
    driven, row
        The car, and the moment.
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
    given = dict(_given(part, kind.controls(), rig, driven, row))
    values = {name: each.value for name, each in given.items()}
    told = "; ".join(
        [f"bench = {class_name(stem)}({'rig' if kind.needs_rig else ''})"]
        + [f"bench.{name} = {value!r}" for name, value in values.items()]
        + ["bench"]
    )
    notes = [_clamped(each, system) for each in given.values() if not each.inside]
    return Opened(stem, values, told, (*notes, part.leaves, *_fault(part, rig, driven)))


def _given(
    part: Part, controls: dict[str, Control], rig: Rig, driven: Driven, row: Row
) -> Iterator[tuple[str, Given]]:
    """Yield what each control gets, those first that the moment sets."""
    for name, take in part.takes.items():
        asked = take(driven, row)
        if asked is not None:
            yield name, _within(controls[name], asked)
    for name, size in _changed(part, rig, driven).items():
        yield name, _within(controls[name], size)


def _changed(part: Part, rig: Rig, driven: Driven) -> dict[str, float]:
    """Return the sizes that a known fault has changed, by the control's name."""
    if driven.outing.fault == HIDDEN:
        return {}
    whole, faulty = (getattr(each, part.section) for each in (rig, driven.car.rig))
    return {
        name: getattr(faulty, entry)
        for name, entry in part.sizes.items()
        if getattr(faulty, entry) != getattr(whole, entry)
    }


def _fault(part: Part, rig: Rig, driven: Driven) -> list[str]:
    """Return what is to be said of a fault."""
    if driven.outing.fault == HIDDEN:
        return ["What is wrong with the car stays hidden: this bench is healthy."]
    if not driven.fault:
        return []
    words = FAULTS[driven.fault].meaning.rstrip(".")
    if _changed(part, rig, driven):
        return [f"The fault came along: {words}."]
    return [f"The fault stayed on the drive: {words}."]


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
