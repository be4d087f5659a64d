"""The form in which an owner fills a card in: fields with units, live checks, sketches beside."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets

from fuelcircuits.errors import CardError, CircuitError
from fuelcircuits.own_car.card import OwnCard, open_card
from fuelcircuits.own_car.card_check import card_check
from fuelcircuits.own_car.entries import BARRELS, ENTRIES, GROUPS, SECOND_ENTRIES, sketch
from fuelcircuits.own_car.entry_text import entry_text
from fuelcircuits.own_car.field import Field, asleep, said, shown
from fuelcircuits.own_car.jet_by_flow import BY_FLOW, bore_read
from fuelcircuits.own_car.press import Press
from fuelcircuits.own_car.ran_well import RAN_WELL, remembered

__all__ = ["CardForm"]

NARROW = {"description_width": "initial"}


class CardForm:
    """A form over the card at `path`; every change that can be understood is saved at once.

    Parameters
    ----------
    path
        Where the card lies, or is to lie.
    changed
        Called without anything once another card has been saved.
    """

    def __init__(self, path: Path, changed: Callable[[], object] = lambda: None) -> None:
        self.path, self.changed = path, changed
        self.card = open_card(path) if path.is_file() else OwnCard()
        self.lies = self._lying()
        written = self.card.entries
        matters = [*ENTRIES.values(), *SECOND_ENTRIES.values()]
        self.fields = {
            one.entry: Field(one, written.get(one.entry, ""), self._entered) for one in matters
        }
        self.barrels = ipywidgets.Dropdown(
            options=[(words, name) for name, words in BARRELS.items()],
            value=self.card.barrels,
            description="Barrels",
            style=NARROW,
        )
        self.barrels.observe(self._arranged, "value")
        self.second = ipywidgets.VBox(
            [_heading("Second barrel"), *(self.fields[name].widget for name in SECOND_ENTRIES)]
        )
        self.by_flow = _JetByFlow(self.fields)
        self.ran_well = {name: self._remembering(name, words) for name, words in RAN_WELL.items()}
        self.saved = ipywidgets.HTML()
        boxes = [one.box for one in self.fields.values()]
        self.check = Press(self._checked, boxes, description="What would my healthy car read?")
        self.checked = ipywidgets.HTML()
        self.widget = ipywidgets.VBox([asleep(), *self._parts()]).add_class("own-form")
        self._stand()

    def _repr_mimebundle_(self, **asked: Any) -> Any:
        """Show the form in a notebook."""
        return shown(self.widget, asked)

    def _parts(self) -> list[Any]:
        """Return the parts of the form from top to bottom."""
        parts: list[Any] = [self.barrels]
        for title, group in GROUPS.items():
            parts += [_heading(title), *(self.fields[one.entry].widget for one in group)]
        return [
            *(*parts, self.second, *self.by_flow.parts),
            *(_heading("When it ran well, if you know"), *sum(self.ran_well.values(), ())),
            *(_heading("The card"), self.saved, self.check, self.checked),
        ]

    def _remembering(self, name: str, words: str) -> tuple[Any, Any]:
        """Return the box for what a gauge showed when the car ran well, and what is said of it."""
        box = ipywidgets.Text(
            value=self.card.ran_well.get(name, ""),
            description=words,
            style=NARROW,
            layout=ipywidgets.Layout(width="420px", flex_flow="column"),
        )
        told = ipywidgets.HTML()
        box.observe(self._remembered(name, told), "value")
        return box, told

    def _remembered(self, name: str, told: Any) -> Any:
        """Return what hears of a reading that was taken when the car ran well."""

        def heard(change: Any) -> None:
            text = str(change["new"]).strip()
            known = {one: each for one, each in self.card.ran_well.items() if one != name}
            try:
                if text:
                    known[name] = remembered(name, text)
                told.value = said("Understood.", "good") if text else ""
            except CircuitError as error:
                told.value = said(str(error), "wrong")
            self._keep(replace(self.card, ran_well=known))

        return heard

    def _entered(self, entry: str, text: str) -> None:
        self._keep(self.card.with_entry(entry, text))

    def _arranged(self, change: Any) -> None:
        self._keep(replace(self.card, barrels=change["new"]))

    def _keep(self, card: OwnCard) -> None:
        """Take a card that has changed, save it, and say how it stands."""
        self.card = card
        self.checked.value = ""
        self._stand()

    def _stand(self) -> None:
        """Save the card, if it can be used, and say so; show what is assumed now."""
        try:
            self._save()
            assumed = {name: self.card.assumed(name) for name in self.card.asked()}
        except CircuitError as error:
            self.saved.value = said(f"Not saved yet: {error}", "wrong")
            return
        for name, field in self.fields.items():
            if name in assumed:
                field.stand(assumed[name])
            elif name in ENTRIES:
                field.stand("")
        self.second.layout.display = "" if self.card.barrels == "late" else "none"
        measured = sum(name in self.card.entries for name in assumed)
        self.saved.value = said(
            f"Saved in {self.path.name}: {measured} of {len(assumed)} measured, the rest scaled "
            f"from the teaching rig {self.card.like}.",
            "good",
        )

    def _save(self) -> None:
        """Lay the card down, unless somebody else has changed the file meanwhile."""
        if self._lying() != self.lies:
            raise CardError(
                f"{self.path.name} was changed elsewhere since this form was opened. Run its cell "
                "again, so that nothing is lost"
            )
        self.card.write(self.path)
        before, self.lies = self.lies, self._lying()
        if self.lies != before:
            self.changed()

    def _lying(self) -> str:
        """Return the card's file as it lies there; empty if there is none."""
        return self.path.read_text(encoding="utf-8") if self.path.is_file() else ""

    def _checked(self, _held: list[str]) -> None:
        self.checked.value = said("Working it out …")
        try:
            self.checked.value = card_check(self.card)
        except CircuitError as error:
            self.checked.value = said(str(error), "wrong")


class _JetByFlow:
    """The part of the form that works a jet's bore out from what it passes."""

    def __init__(self, fields: Mapping[str, Field]) -> None:
        self.fields = fields
        jets = [(one.matter.label, name) for name, one in fields.items() if one.matter.jet]
        self.jet = ipywidgets.Dropdown(options=jets, description="Jet", style=NARROW)
        self.volume = ipywidgets.Text(description="Water in one minute [ml]", style=NARROW)
        self.head = ipywidgets.Text(description="Head above the jet [mm]", style=NARROW)
        asked = [self.jet, self.volume, self.head]
        self.button = Press(self._work_out, asked, description="Work the bore out")
        self.told = ipywidgets.HTML()
        words = f'<p style="line-height: 1.35">{BY_FLOW}</p>'
        left = ipywidgets.VBox(
            [
                ipywidgets.HTML(words),
                *(*asked, self.button, self.told),
            ],
            layout={"width": "340px"},
        )
        picture = ipywidgets.HTML(sketch("flow"), layout={"width": "270px"})
        row = ipywidgets.HBox([left, picture], layout={"flex_flow": "row wrap"})
        self.parts = [_heading("A jet by what it passes"), row]

    def _work_out(self, held: list[str]) -> None:
        jet, volume, head = held
        try:
            bore = bore_read(volume, head)
        except CircuitError as error:
            self.told.value = said(f"{error}.", "wrong")
            return
        shown = entry_text(jet, bore)
        self.fields[jet].put(shown)
        self.told.value = said(f"{shown}, give or take 3 %; written into its field.", "good")


def _heading(text: str) -> Any:
    return ipywidgets.HTML(f"<h3>{escape(text)}</h3>")
