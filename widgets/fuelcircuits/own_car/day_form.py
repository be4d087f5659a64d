"""The form of a day at the car: what was read, seen, mended and fitted, kept by date."""

from collections.abc import Mapping
from datetime import date
from html import escape
from typing import Any

import ipywidgets

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import fitting
from fuelcircuits.errors import CircuitError, RangeError
from fuelcircuits.own_car.field import asleep, said
from fuelcircuits.own_car.looks import LOOKS, Look
from fuelcircuits.own_car.reading_told import HOW, in_own_unit, reading_label, reading_told
from fuelcircuits.own_car.rounds import Round, Rounds
from fuelcircuits.physics.network.rig import Rig

__all__ = ["DayForm"]

STYLE = {"description_width": "initial"}
WIDE = ipywidgets.Layout(width="420px", flex_flow="column")
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
    """

    def __init__(self, rounds: Rounds, rig: Rig, day: str = "") -> None:
        self.rounds = rounds
        self.day = day or date.today().isoformat()
        begun = rounds.of(self.day) or self._after(rounds.last)
        self.place = {
            "altitude": _text("Height above the sea [m]", f"{begun.altitude:g}"),
            "temperature": _text("Temperature of the air [°C]", f"{begun.temperature:g}"),
            "ethanol": _text("Ethanol in the fuel [%]", f"{100 * begun.ethanol:g}"),
        }
        self.gauges = {one.name: _Gauge(one, begun.readings, self._heard) for one in fitting(rig)}
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
        self.widget = ipywidgets.VBox([asleep(), *self._parts()]).add_class("own-form")

    def _repr_mimebundle_(self, **asked: Any) -> Any:
        """Show the form in a notebook."""
        return self.widget._repr_mimebundle_(**asked)

    @property
    def round(self) -> Round:
        """What the form holds; raise `CircuitError` if a number is none."""
        return Round(
            day=self.day,
            altitude=_number(self.place["altitude"]),
            temperature=_number(self.place["temperature"]),
            ethanol=_number(self.place["ethanol"]) / 100.0,
            readings={name: one.text for name, one in self.gauges.items() if one.text},
            seen={name: one.value for name, one in self.looks.items() if one.value},
            work=self.done["work"].value.strip(),
            parts=self.done["parts"].value.strip(),
        )

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
        ]

    def _heard(self, _change: Any = None) -> None:
        """Save the day, if it can be used, and say so."""
        try:
            self.rounds = self.rounds.with_round(self.round)
            self.rounds.write()
        except CircuitError as error:
            self.saved.value = said(f"Not saved yet: {error}", "wrong")
            return
        now = self.rounds.of(self.day)
        count = 0 if now is None else len(now.readings) + len(now.seen)
        self.saved.value = said(f"Saved in {self.rounds.path.name}: {count} readings.", "good")


class _Gauge:
    """A box for one reading, with a live check."""

    def __init__(self, check: Check, begun: Mapping[str, str], changed: Any) -> None:
        self.check, self.changed = check, changed
        self.box = _text(reading_label(check), begun.get(check.name, ""))
        self.told = ipywidgets.HTML(self._told())
        self.widget = ipywidgets.VBox([self.box, self.told])
        self.box.observe(self._heard, "value")

    @property
    def text(self) -> str:
        """What was read, with its unit; empty if nothing was, or nothing that can be used."""
        return in_own_unit(self.check, str(self.box.value))

    def _heard(self, _change: Any) -> None:
        self.told.value = self._told()
        self.changed()

    def _told(self) -> str:
        """Return what is wrong, or what the reading needs and takes."""
        return said(*reading_told(self.check, str(self.box.value)))


def _look(look: Look, box: Any) -> list[Any]:
    """Return a yes-or-no test with how it is made."""
    care = f" <b>Caution.</b> {escape(look.caution)}" if look.caution else ""
    words = f"{escape(look.how)} <i>{look.minutes:g} min; {escape(look.needs)}.</i>{care}"
    return [box, ipywidgets.HTML(f'<p style="line-height: 1.35; margin: 0 0 8px">{words}</p>')]


def _text(words: str, value: str) -> Any:
    return ipywidgets.Text(value=value, description=words, style=STYLE, layout=WIDE)


def _area(words: str, value: str) -> Any:
    return ipywidgets.Textarea(value=value, description=words, style=STYLE, layout=WIDE)


def _number(box: Any) -> float:
    """Return the number in a box; raise `RangeError` naming it if there is none."""
    text = str(box.value).strip().replace(",", ".") or "0"
    try:
        return float(text)
    except ValueError:
        raise RangeError(f"{box.description} must be a number, got {text!r}") from None


def _heading(text: str) -> Any:
    return ipywidgets.HTML(f"<h4>{escape(text)}</h4>")
