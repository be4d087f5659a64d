"""The form of a day at the car: what was read, seen, mended and fitted, kept by date."""

from collections.abc import Callable
from datetime import date
from html import escape
from typing import Any

import ipywidgets

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.errors import CardError, CircuitError
from fuelcircuits.own_car.entry_told import Told
from fuelcircuits.own_car.field import asleep, said, shown
from fuelcircuits.own_car.live_report import LiveReport, Steps
from fuelcircuits.own_car.look import Look
from fuelcircuits.own_car.looks import LOOKS
from fuelcircuits.own_car.place import PLACE, placed
from fuelcircuits.own_car.reading_told import HOW, in_own_unit, reading_label, reading_told
from fuelcircuits.own_car.readings import asked
from fuelcircuits.own_car.rounds import Round, Rounds, counted, open_rounds
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

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
    steps
        Gives the steps to the report on a day, which then stands below the form; none does if not
        given.

    Raises
    ------
    ReadingError
        If it is no day.
    """

    def __init__(self, rounds: Rounds, rig: Rig, day: str = "", steps: Steps | None = None) -> None:
        self.rounds = rounds
        self.day = day or date.today().isoformat()
        Round(self.day).check()
        self.known = rounds.of(self.day)
        begun = self.known or self._after(rounds.last)
        self.place = {
            name: _text(one.label, one.shown(getattr(begun, name))) for name, one in PLACE.items()
        }
        self.gauges = {
            one.name: _Gauge(one, begun.readings.get(one.name, ""), self._fuel, self._heard)
            for one in asked(rig)
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
        self.report = LiveReport(lambda: self.round, steps) if steps else None
        for box in (*self.place.values(), *self.looks.values(), *self.done.values()):
            box.observe(self._heard, "value")
        self.place["ethanol"].observe(self._refuelled, "value")
        self.widget = ipywidgets.VBox([asleep(), *self._parts()]).add_class("own-form")

    def _repr_mimebundle_(self, **asked: Any) -> Any:
        """Show the form in a notebook."""
        return shown(self.widget, asked)

    @property
    def round(self) -> Round:
        """What the form holds; raise `CircuitError` if a number is none."""
        return Round(
            day=self.day,
            **{name: placed(name, box.value) for name, box in self.place.items()},
            readings=self.others
            | {name: one.text for name, one in self.gauges.items() if one.text},
            seen={name: one.value for name, one in self.looks.items() if one.value},
            work=self.done["work"].value.strip(),
            parts=self.done["parts"].value.strip(),
        )

    def _fuel(self) -> Fuel:
        """Return what is in the tank; petrol as long as the form does not say."""
        try:
            return Fuel(ethanol=placed("ethanol", self.place["ethanol"].value))
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
        looks = [part for name, look in LOOKS.items() for part in _look(look, self.looks[name])]
        return [
            *(_heading(f"{self.day}: where, and on what"), *self.place.values(), self.saved),
            *(_heading("Read on gauges"), ipywidgets.HTML(f"<p>{HOW}</p>")),
            *(one.widget for one in self.gauges.values()),
            *(_heading("Seen, heard or smelt, without a gauge"), *looks),
            *(_heading("Done"), *self.done.values(), self.saved),
            *((_heading("What it comes to"), *self.report.parts) if self.report else ()),
        ]

    def _heard(self, _change: Any = None) -> None:
        """Save the day, if it can be used, and say so."""
        try:
            self._save(self.round)
        except CircuitError as error:
            self.saved.value = said(f"Not saved yet: {error}", "wrong")
        else:
            self.saved.value = said(*self._stands())
        self.follow()

    def follow(self) -> None:
        """Take it that day or card has changed: the report below, if one was asked for, follows."""
        if self.report:
            self.report.follow()

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
        text = f"Saved in {self.rounds.path.name}: {now.holds}."
        if not left:
            return text, "good"
        return f"{text} Left out: {counted(left, 'reading')} marked ✗ below.", "odd"


class _Gauge:
    """A box for one reading, with a live check."""

    def __init__(
        self, check: Check, begun: str, fuel: Callable[[], Fuel], changed: Callable[[], None]
    ) -> None:
        self.check, self.fuel, self.changed = check, fuel, changed
        self.box = _text(reading_label(check), begun)
        self.told = ipywidgets.HTML(self._told())
        self.widget = ipywidgets.VBox([self.box, self.told])
        self.box.observe(self._heard, "value")

    @property
    def text(self) -> str:
        """What was read, with its unit; empty if nothing was, or nothing that can be used."""
        return in_own_unit(self.check, str(self.box.value), self.fuel())

    @property
    def refused(self) -> bool:
        """Whether something stands there that cannot be used."""
        return self._stands().how == "wrong"

    def tell(self) -> None:
        """Say what was understood, or why nothing was."""
        self.told.value = self._told()

    def _heard(self, _change: Any) -> None:
        self.tell()
        self.changed()

    def _stands(self) -> Told:
        return reading_told(self.check, str(self.box.value), self.fuel())

    def _told(self) -> str:
        """Return what is wrong, or what the reading needs and takes, as HTML."""
        return said(*self._stands())


def _look(look: Look, box: Any) -> list[Any]:
    """Return a yes-or-no test with how it is made."""
    care = f" <b>Caution.</b> {escape(look.caution)}" if look.caution else ""
    words = f"{escape(look.how)} <i>{look.minutes:g} min; {escape(look.needs)}.</i>{care}"
    return [box, ipywidgets.HTML(f'<p style="line-height: 1.35; margin: 0 0 8px">{words}</p>')]


def _text(words: str, value: str) -> Any:
    return ipywidgets.Text(value=value, description=words, style=STYLE, layout=WIDE)


def _area(words: str, value: str) -> Any:
    return ipywidgets.Textarea(value=value, description=words, style=STYLE, layout=WIDE)


def _heading(text: str) -> Any:
    return ipywidgets.HTML(f"<h3>{escape(text)}</h3>")
