"""One number of a sheet, as its author asks for it: which entry, in what unit, how far off.

``float_bowl.float_setting in mm to 0.1, +- 0.4`` is an entry of the card in millimetres, rounded
to a tenth, and good within 0.4 mm. A unit may be followed by a second one that is shown in
brackets: ``float_bowl.fuel_pressure in kPa and psi to 1 and 0.5, +- 10 %``. What is worked out from
the card is called ``reading.idle_vacuum``; a factor may stand before: ``2 * pump.stroke``.
How far off: ``+- 0.4``, ``+ 1 - 0.5``, ``at most + 0.5``, ``at least - 0.5``, ``at most 12``, each
in the first unit, or in percent.
"""

import re
from dataclasses import dataclass
from math import floor, log10

from fuelcircuits.errors import CircuitError
from fuelcircuits.quantities.written import unit_in

from fuelmarks.course.error import CourseError

__all__ = ["CardNumber", "card_number"]

NUMBER = r"\d+(?:\.\d+)?"
ASKED = re.compile(
    rf"(?:(?P<factor>{NUMBER})\s*\*\s*)?(?P<path>[a-z]\w*(?:\.\w+)+)"
    rf"(?:\s+in\s+(?P<unit>[^,]+?)(?:\s+and\s+(?P<other>[^,]+?))?)?"
    rf"(?:\s+to\s+(?P<step>{NUMBER})(?:\s+and\s+(?P<finer>{NUMBER}))?)?"
    rf"(?:\s*,\s*(?P<good>.+))?"
)
GOOD = (
    (re.compile(rf"\+-\s*(?P<both>{NUMBER})\s*(?P<share>%)?"), "both"),
    (re.compile(rf"\+\s*(?P<up>{NUMBER})\s*-\s*(?P<down>{NUMBER})\s*(?P<share>%)?"), "sides"),
    (re.compile(rf"at most\s*\+\s*(?P<up>{NUMBER})\s*(?P<share>%)?"), "most"),
    (re.compile(rf"at least\s*-\s*(?P<down>{NUMBER})\s*(?P<share>%)?"), "least"),
)
UNBROKEN = "\u00a0"
FORM = "ENTRY in UNIT to STEP, +- HOW FAR"


@dataclass(frozen=True)
class CardNumber:
    """An entry or a reading, its unit and rounding, and how far it may be off."""

    path: str
    factor: float = 1.0
    unit: str = ""
    other: str = ""
    step: float | None = None
    finer: float | None = None
    up: float | None = None
    """How far above is still good; in `unit`, or a share; None where there is no upper limit."""
    down: float | None = None
    share: bool = False

    @property
    def limited(self) -> bool:
        """Whether it says how far off is still good."""
        return self.up is not None or self.down is not None

    def value(self, number: float, unit: str) -> str:
        """Return a number given in `unit` as the sheet shows it."""
        one = _turned(number, unit, self.unit)
        text = labelled(shown(one, self.step), self.unit)
        return text + self._beside([one])

    def limits(self, number: float, unit: str) -> str:
        """Return between what it is good: ``8.6 to 9.4 mm``."""
        one = _turned(number, unit, self.unit)
        low, high = (
            None if far is None else one + sign * far * (one / 100 if self.share else 1.0)
            for far, sign in ((self.down, -1), (self.up, 1))
        )
        if low is not None and one >= 0 and not unit_in(self.unit or unit).nought:
            low = max(low, 0.0)
        ends = [end for end in (low, high) if end is not None]
        text = labelled(" to ".join(shown(end, self.step) for end in ends), self.unit)
        lead = "" if len(ends) == 2 else ("not above " if low is None else "not below ")
        return lead + text + self._beside(ends)

    def _beside(self, ends: list[float]) -> str:
        """Return the same in the second unit, in brackets; nothing if there is none."""
        if not self.other:
            return ""
        turned = [_converted(end, self.unit, self.other) for end in ends]
        text = " to ".join(shown(end, self.finer) for end in turned)
        return f" ({labelled(text, self.other)})"


def card_number(text: str) -> CardNumber:
    """Return what `text` asks for; raise `CourseError` if it cannot be read."""
    found = ASKED.fullmatch(text.strip())
    if not found:
        raise CourseError(f"a number of the card must read {FORM}, got {text!r}")
    asked = found.groupdict()
    for unit in (asked["unit"], asked["other"]):
        _known(unit)
    up, down, share = _good(asked["good"])
    return CardNumber(
        path=asked["path"],
        factor=float(asked["factor"] or 1.0),
        unit=asked["unit"] or "",
        other=asked["other"] or "",
        step=float(asked["step"]) if asked["step"] else None,
        finer=float(asked["finer"]) if asked["finer"] else None,
        up=up,
        down=down,
        share=share,
    )


def _good(text: str | None) -> tuple[float | None, float | None, bool]:
    """Return how far above and below is good, and whether in percent."""
    if text is None:
        return None, None, False
    for pattern, kind in GOOD:
        if found := pattern.fullmatch(text.strip()):
            far = found.groupdict()
            share = bool(far["share"])
            if kind == "both":
                return float(far["both"]), float(far["both"]), share
            up, down = far.get("up"), far.get("down")
            return float(up) if up else None, float(down) if down else None, share
    rule = "must read +- 0.4, + 1 - 0.5, at most + 1 or at least - 1, with % for a share"
    raise CourseError(f"how far off is good {rule}, got {text!r}")


def _known(unit: str | None) -> None:
    """Raise `CourseError` if a unit is none."""
    try:
        unit_in(unit or "1")
    except CircuitError as error:
        raise CourseError(f"unit of a number of the card: {error}") from error


def _turned(number: float, unit: str, wanted: str) -> float:
    """Return a number in another unit, or where it is none the same."""
    return _converted(number, unit, wanted) if wanted else number


def _converted(number: float, unit: str, wanted: str) -> float:
    held, new = unit_in(unit), unit_in(wanted)
    if held.dimension != new.dimension:
        raise CourseError(f"unit must be of the kind of {unit}, got {wanted!r}")
    return (number * held.one + held.nought - new.nought) / new.one


def shown(number: float, step: float | None) -> str:
    """Return a number rounded to whole steps; to three figures if there is no step."""
    if step is None:
        return f"{number:.3g}"
    places = max(-floor(log10(step)), 0)
    while round(step, places) != step:
        places += 1
    return f"{floor(number / step + 0.5 + 1e-9) * step:.{places}f}"


def labelled(number: str, unit: str) -> str:
    """Return a number with its unit as the trade writes it; a line never breaks between them."""
    label = unit_in(unit).label if unit else ""
    return f"{number}{'' if label == '°' else UNBROKEN}{label}".strip()
