"""Read how a bench is set from a text: its own, or one that somebody types.

``screw_turns=2.75`` is the text of a bench, whose numbers are SI; ``mixture screw: 2 3/4 turns,
float setting = 9.2 mm`` is what people write. The text may come from anybody: whatever it holds,
reading it is quick, and nothing is raised.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.kinds import dimension_of
from fuelcircuits.quantities.reading import Reading, read
from fuelcircuits.quantities.trade_units import labelled, scale

__all__ = ["TURNS", "Dial", "Told", "settings_in"]

LONGEST = 1000
TURNS = "turns"
"""The unit of a screw that is counted in turns: a plain number to all else."""
BETWEEN = re.compile(r"[;&\n]|,(?=\s*[A-Za-z_])")
NAMED = re.compile(r"\s*([A-Za-z][\w .'-]{0,60}?)\s*[=:]\s*(.*?)\s*", re.S)
TURNED = re.compile(r"\s*turns?\b.*", re.I | re.S)
KEPT = re.compile(r"\s*pin(\.\w+)?\s*=")
"""What a bench's text says of a state that is kept to compare with."""


class Dial(NamedTuple):
    """A control that may be set: its name on the bench, its unit, and its ends in that unit."""

    label: str
    unit: str
    low: float
    high: float

    @property
    def plain(self) -> bool:
        """Say whether its number has no unit."""
        return self.unit in ("", TURNS)

    def text(self, value: float) -> str:
        """Return an SI value as one reads it on the bench."""
        if self.plain:
            return f"{value:.4g} {self.unit}".strip()
        way = scale(self.unit)
        return labelled(f"{(value - way.offset) / way.factor:.4g}", self.unit)

    def distance(self, far: float) -> str:
        """Return a difference of two SI values in the dial's unit, in one figure."""
        unit = "" if self.unit == TURNS else self.unit
        return labelled(f"{float(f'{far / scale(unit).factor:.1g}'):g}", unit)


@dataclass(frozen=True)
class Told:
    """What a text says: the SI value of each control, and what cannot be understood."""

    values: Mapping[str, float]
    complaints: tuple[str, ...] = ()
    dials: Mapping[str, Dial] = field(default_factory=dict, repr=False)

    @property
    def text(self) -> str:
        """Return what was understood, for whoever wrote it."""
        said = (f"{self.dials[name].label} {self.dials[name].text(at)}" for name, at in self)
        return ", ".join(said)

    def __iter__(self) -> Iterator[tuple[str, float]]:
        """Run through what was understood, in the order of the dials."""
        return ((name, self.values[name]) for name in self.dials if name in self.values)


def settings_in(text: str, dials: Mapping[str, Dial]) -> Told:
    """Return how `text` sets the controls `dials`, by name; one that is left out is missed."""
    values: dict[str, float] = {}
    complaints: list[str] = []
    for part in BETWEEN.split(_with_names(text[:LONGEST], dials)):
        if not part.strip() or KEPT.match(part):
            continue
        try:
            name, value = _one(part, dials)
            if values.setdefault(name, value) != value:
                raise UnitError(f"{dials[name].label} must be set once, got it twice")
        except UnitError as error:
            complaints.append(f"{error}.")
    missing = [each.label for name, each in dials.items() if name not in values]
    if missing and not complaints:
        complaints.append(f"Write down too where this stands: {', '.join(missing)}.")
    return Told(values, tuple(complaints), dials)


def _with_names(text: str, dials: Mapping[str, Dial]) -> str:
    """Return `text` with each label that stands before a value as its control's name."""
    for name, dial in sorted(dials.items(), key=lambda pair: -len(pair[1].label)):
        text = re.sub(rf"{re.escape(dial.label)}(?=\s*[=:])", name, text, flags=re.I)
    return text


def _one(part: str, dials: Mapping[str, Dial]) -> tuple[str, float]:
    """Return the control that one part names, and its value; raise `UnitError` if it is none."""
    found = NAMED.fullmatch(part)
    if not found and len(dials) > 1:
        raise UnitError(f"{part.strip()[:40]} must begin with a control's name and =")
    known = {_plain(said): name for name, each in dials.items() for said in (name, each.label)}
    if found and _plain(found[1]) not in known:
        listed = ", ".join(each.label for each in dials.values())
        raise UnitError(f"{found[1][:40]} must be left as it was; to be set: {listed}")
    name = known[_plain(found[1])] if found else next(iter(dials))
    return name, _value(found[2] if found else part, dials[name])


def _plain(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


def _value(text: str, dial: Dial) -> float:
    """Return the one SI value that a text gives a control; raise `UnitError` if there is none."""
    if dial.unit == TURNS:
        text = TURNED.sub("", text)
    readings = read(text)
    wanted = dimension_of("" if dial.plain else dial.unit)
    fits = [one for one in readings if _fits(one, dial, wanted)]
    if len(fits) > 1:
        raise UnitError(f"{dial.label} must be clear, got {text.strip()}: write it without a comma")
    if fits:
        return fits[0].magnitude
    ends = f"{dial.low:g} to {dial.high:g} {dial.unit}".strip()
    said = "with its unit, " if readings[0].bare and not dial.plain else ""
    raise UnitError(f"{dial.label} must be {said}{ends}, got {readings[0].text}")


def _fits(one: Reading, dial: Dial, wanted: object) -> bool:
    """Return whether a reading is of the control's kind, or bare as the bench's own text is."""
    if not one.bare and (one.dimension != wanted or dial.plain):
        return False
    way = scale("" if dial.plain else dial.unit)
    low, high = (way.factor * end + way.offset for end in (dial.low, dial.high))
    around = 1e-6 * (high - low)
    return low - around <= one.magnitude <= high + around
