"""The form of a day at the car: what was read, seen, mended and fitted, kept by date."""

from collections.abc import Callable
from datetime import date
from html import escape
from typing import Any

import ipywidgets

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import fitting
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.errors import CardError, CircuitError, RangeError, UnitError
from fuelcircuits.own_car.entry_reading import is_bare
from fuelcircuits.own_car.field import asleep, said
from fuelcircuits.own_car.looks import LOOKS, Look
from fuelcircuits.own_car.readings import believed
from fuelcircuits.own_car.rounds import Round, Rounds, open_rounds
from fuelcircuits.own_car.tools import TOOLS
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.quantities.written import si

__all__ = ["DayForm"]

STYLE = {"description_width": "initial"}
WIDE = ipywidgets.Layout(width="420px", flex_flow="column")
CHANGED = (
    "{file} was changed elsewhere since this form was opened. Run its cell again, so that nothing "
    "is lost"
)
ANSWERS = [("not looked", ""), ("no", "no"), ("yes", "yes")]


class DayForm:
    """A form over one day of `rounds`; whatever can be used is saved at once.

    Parameters
    ----------
    rounds
        The car's rounds, which the form adds to.
    rig
        The car's carburettor: only readings that it has the parts for are asked.
    day
        As 2026-05-02; today if not given.

    Raises
    ------
    ReadingError
        If it is no day.
    """

    def __init__(self, rounds: Rounds, rig: Rig, day: str = "") -> None:
        self.rounds = rounds
        self.day = day or date.today().isoformat()
        Round(self.day).check()
        self.known = rounds.of(self.day)
        begun = self.known or self._after(rounds.last)
        self.place = {
            "altitude": _text("Height above the sea [m]", f"{begun.altitude:g}"),
            "temperature": _text("Temperature of the air [°C]", f"{begun.temperature:g}"),
            "ethanol": _text("Ethanol in the fuel [%]", f"{100 * begun.ethanol:g}"),
        }
        self.gauges = {
            one.name: _Gauge(one, begun.readings.get(one.name, ""), self._fuel, self._heard)
            for one in fitting(rig)
        }
        self.others = {
            name: text for name, text in begun.readings.items() if name not in self.gauges
        }
        self.looks = {
            name: ipywidgets.Dropdown(
                options=ANSWERS,
                value=begun.seen.get(name, ""),
                description=look.label,
                style=STYLE,
                layout=WIDE,
            )
            for name, look in LOOKS.items()
        }
        self.done = {
            "work": _area("Work done", begun.work),
            "parts": _area("Parts fitted", begun.parts),
        }
        self.saved = ipywidgets.HTML()
        for box in (*self.place.values(), *self.looks.values(), *self.done.values()):
            box.observe(self._heard, "value")
        self.place["ethanol"].observe(self._refuelled, "value")
        self.widget = ipywidgets.VBox([asleep(), *self._parts()]).add_class("own-form")

    def _repr_mimebundle_(self, **asked: Any) -> Any:
        """Show the form in a notebook."""
        return self.widget._repr_mimebundle_(**asked)

    @property
    def round(self) -> Round:
        """What the form holds; raise `CircuitError` if a number is none."""
        return Round(
            day=self.day,
            altitude=_number(self.place["altitude"], "m"),
            temperature=_number(self.place["temperature"], "degC"),
            ethanol=self._ethanol(),
            readings=self.others
            | {name: one.text for name, one in self.gauges.items() if one.text},
            seen={name: one.value for name, one in self.looks.items() if one.value},
            work=self.done["work"].value.strip(),
            parts=self.done["parts"].value.strip(),
        )

    def _ethanol(self) -> float:
        return _number(self.place["ethanol"], "%") / 100.0

    def _fuel(self) -> Fuel:
        """Return what is in the tank; petrol as long as the form does not say."""
        try:
            return Fuel(ethanol=self._ethanol())
        except CircuitError:
            return Fuel()

    def _refuelled(self, _change: Any) -> None:
        """Say anew what each reading means: an air-fuel ratio hangs on the fuel."""
        for one in self.gauges.values():
            one.tell()

    def _after(self, last: Round | None) -> Round:
        """Return an empty round, where and on what the last one was."""
        if last is None:
            return Round(self.day)
        return Round(self.day, last.altitude, last.temperature, last.ethanol)

    def _parts(self) -> list[Any]:
        """Return the parts of the form from top to bottom."""
        words = (
            "Write what your gauges showed, each with its unit, and leave open what you have not "
            "read. A mixture is lambda, or 13.5 AFR, or 2.5 % CO. Before you read at idle, set the "
            "idle speed back with its screw. Light loads are held by the vacuum gauge, on the road "
            "with somebody else at the wheel: just off idle 1400 rpm at 16 inHg, cruise 2100 rpm "
            "at 12 inHg; full load is 3000 rpm wide open."
        )
        looks = [part for name, look in LOOKS.items() for part in _look(look, self.looks[name])]
        return [
            *(_heading(f"{self.day}: where, and on what"), *self.place.values(), self.saved),
            *(_heading("Read on gauges"), ipywidgets.HTML(f"<p>{words}</p>")),
            *(one.widget for one in self.gauges.values()),
            *(_heading("Seen, heard or smelt, without a gauge"), *looks),
            *(_heading("Done"), *self.done.values(), self.saved),
        ]

    def _heard(self, _change: Any = None) -> None:
        """Save the day, if it can be used, and say so."""
        try:
            self._save(self.round)
        except CircuitError as error:
            self.saved.value = said(f"Not saved yet: {error}", "wrong")
            return
        self.saved.value = said(*self._stands())

    def _save(self, now: Round) -> None:
        """Write the day beside the others as they lie in the file by now."""
        there = open_rounds(self.rounds.path)
        if there.of(self.day) != self.known:
            raise CardError(CHANGED.format(file=there.path.name))
        self.rounds = there.with_round(now)
        self.rounds.write()
        self.known = open_rounds(there.path).of(self.day)

    def _stands(self) -> tuple[str, str]:
        """Return what is saved, and how many readings could not be."""
        now, left = self.round, sum(one.refused for one in self.gauges.values())
        held = f"{_counted(len(now.readings), 'reading')}, {_counted(len(now.seen), 'look')}"
        text = f"Saved in {self.rounds.path.name}: {held}."
        if not left:
            return text, "good"
        return f"{text} Left out: {_counted(left, 'reading')} marked ✗ below.", "odd"


class _Gauge:
    """A box for one reading, with a live check."""

    def __init__(
        self, check: Check, begun: str, fuel: Callable[[], Fuel], changed: Callable[[], None]
    ) -> None:
        self.check, self.fuel, self.changed = check, fuel, changed
        unit = f" [{check.unit}]" if check.unit else ""
        self.box = _text(f"{check.label}{unit}", begun)
        self.told = ipywidgets.HTML(self._told())
        self.widget = ipywidgets.VBox([self.box, self.told])
        self.box.observe(self._heard, "value")

    @property
    def text(self) -> str:
        """What was read, with its unit; empty if nothing was, or nothing that can be used."""
        text = str(self.box.value).strip()
        if not text or self._fault():
            return ""
        bare = all(sign in "0123456789.,+- " for sign in text)
        return f"{text} {self.check.unit}".strip() if bare else text

    @property
    def refused(self) -> bool:
        """Whether something stands there that cannot be used."""
        return bool(str(self.box.value).strip() and self._fault())

    def tell(self) -> None:
        """Say what was understood, or why nothing was."""
        self.told.value = self._told()

    def _heard(self, _change: Any) -> None:
        self.tell()
        self.changed()

    def _fault(self) -> str:
        """Return why what the box holds cannot be used."""
        try:
            believed(self.check, self.box.value, self.fuel())
        except CircuitError as error:
            return str(error).removeprefix(f"{self.check.name} (").replace(")", "", 1)
        return ""

    def _read(self) -> str:
        """Return the reading as it was understood."""
        return reading_text(self.check, believed(self.check, self.box.value, self.fuel()))

    def _told(self) -> str:
        """Return what is wrong, or what the reading needs and takes."""
        needs = TOOLS.get(self.check.name, "exhaust analyser")
        if str(self.box.value).strip():
            fault = self._fault()
            return said(fault, "wrong") if fault else said(f"Understood: {self._read()}.", "good")
        return said(f"{self.check.minutes:g} min; {needs}. {self.check.caution}".strip())


def _counted(count: int, noun: str) -> str:
    """Return how many there are, in words."""
    return f"{count or 'no'} {noun}{'' if count == 1 else 's'}"


def _look(look: Look, box: Any) -> list[Any]:
    """Return a yes-or-no test with how it is made."""
    care = f" <b>Caution.</b> {escape(look.caution)}" if look.caution else ""
    words = f"{escape(look.how)} <i>{look.minutes:g} min; {escape(look.needs)}.</i>{care}"
    return [box, ipywidgets.HTML(f'<p style="line-height: 1.35; margin: 0 0 8px">{words}</p>')]


def _text(words: str, value: str) -> Any:
    return ipywidgets.Text(value=value, description=words, style=STYLE, layout=WIDE)


def _area(words: str, value: str) -> Any:
    return ipywidgets.Textarea(value=value, description=words, style=STYLE, layout=WIDE)


def _number(box: Any, unit: str) -> float:
    """Return the number in a box, in `unit` or its own; raise `RangeError` if there is none."""
    text = str(box.value).strip()
    plain = text.replace(",", ".").replace("°", "deg")
    try:
        return si(f"{plain} {unit}" if is_bare(plain) else plain, unit)
    except UnitError:
        raise RangeError(f"{box.description} must be a number, got {text!r}") from None


def _heading(text: str) -> Any:
    return ipywidgets.HTML(f"<h4>{escape(text)}</h4>")
