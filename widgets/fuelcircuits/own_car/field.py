"""One field of the form: what is asked, what was understood of it, and the sketch beside."""

from collections.abc import Callable
from html import escape
from typing import Any

import ipywidgets

from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.entries import Matter, sketch
from fuelcircuits.own_car.entry_reading import entry_value
from fuelcircuits.own_car.entry_told import entry_told

__all__ = ["Field", "asleep", "said", "shown"]

LEFT = ipywidgets.Layout(width="340px")
RIGHT = ipywidgets.Layout(width="270px")


class Field:
    """A box for one entry of the card, with its unit, a live check and a sketch.

    Parameters
    ----------
    matter
        What is asked.
    text
        What it holds at first.
    changed
        Called with the entry and its text, which is empty if there is none to be understood.
    """

    def __init__(self, matter: Matter, text: str, changed: Callable[[str, str], None]) -> None:
        self.matter, self.changed = matter, changed
        unit = f" [{matter.unit}]" if matter.unit else ""
        self.box = ipywidgets.Text(
            value=text,
            description=f"{matter.label}{unit}",
            style={"description_width": "initial"},
            layout=ipywidgets.Layout(width="auto", flex_flow="column"),
        )
        self.told = ipywidgets.HTML()
        care = f" <b>Caution.</b> {escape(matter.caution)}" if matter.caution else ""
        words = f"{escape(matter.does)} <i>{escape(matter.how)}</i>{care}"
        about = ipywidgets.HTML(f'<p style="line-height: 1.35; margin: 2px 0">{words}</p>')
        picture = ipywidgets.HTML(sketch(matter.drawing), layout=RIGHT)
        left = ipywidgets.VBox([self.box, self.told, about], layout=LEFT)
        self.widget = ipywidgets.HBox([left, picture], layout={"flex_flow": "row wrap"})
        self.box.observe(self._heard, "value")
        self._assumed = ""

    def stand(self, assumed: str) -> None:
        """Say how the entry stands; `assumed` is its value where nobody has measured, if any."""
        self._assumed = assumed
        self.box.placeholder = f"assumed {assumed}" if assumed else "none"
        self.told.value = self._told()

    def put(self, text: str) -> None:
        """Write into the box what somebody has worked out elsewhere."""
        self.box.value = text

    def _heard(self, _change: Any) -> None:
        self.told.value = self._told()
        try:
            entry_value(self.matter.entry, self.box.value)
        except CircuitError:
            self.changed(self.matter.entry, "")
        else:
            self.changed(self.matter.entry, self.box.value)

    def _told(self) -> str:
        """Return how the entry stands, as HTML that a screen reader speaks."""
        return said(*entry_told(self.matter, self.box.value, self._assumed))


_KEYS = (
    "this.closest('.own-form').addEventListener('focusin', "
    "({target}) => (target.dataset.lmSuppressShortcuts = 'true'))"
)
"""Keeps a notebook's own keys out of the form: b in a list would else make a cell."""
WORDS = "A form. Run the cell above it to fill it in: click into the cell, then Shift+Enter."
ASLEEP = f"""<style onload="{_KEYS}"></style>"""
ASLEEP += """<style>
.own-form .widget-inline-hbox { height: auto; align-items: flex-start; }
.own-form .widget-label { white-space: normal; height: auto; line-height: 1.35; text-align: left; }
.own-form select { flex: none; height: 28px; }
.own-told { line-height: 1.35; margin: 0; }
.own-good { color: #15803d; } .own-odd { color: #a14a07; } .own-wrong { color: #c81e1e; }
[data-jp-theme-light="false"] .own-good { color: #4ade80; }
[data-jp-theme-light="false"] .own-odd { color: #fbbf24; }
[data-jp-theme-light="false"] .own-wrong { color: #fca5a5; }
.own-form-asleep { display: none; }
.jupyter-widgets-disconnected .own-form-asleep { display: block; }
.own-form .jupyter-widgets-disconnected::before { content: none; }
.own-form.jupyter-widgets-disconnected :is(input, textarea, select, button) { visibility: hidden; }
</style>
<p class="own-form-asleep"><b>This form was saved with the notebook, and takes nothing yet.</b> Run
its cell, and the cells above it: then it opens with all that you have written.</p>"""
MARKS = {"": "", "good": "✓ ", "odd": "⚠ ", "wrong": "✗ "}


def said(text: str, how: str = "") -> str:
    """Return a sentence as HTML, with the mark of how it stands and in its colour."""
    return (
        f'<p role="status" class="own-told own-{how or "plain"}">'
        f"{MARKS[how]}{escape(text[:1].upper() + text[1:])}</p>"
    )


def asleep() -> Any:
    """Return what a form says in a notebook that was saved, while no Python is behind it.

    Until its cell is run the form takes nothing, so that nothing written into it is lost.
    """
    return ipywidgets.HTML(ASLEEP)


def shown(widget: Any, asked: dict[str, Any]) -> dict[str, Any]:
    """Return what a notebook shows of a form, with words for where no form can be drawn."""
    made: dict[str, Any] = widget._repr_mimebundle_(**asked)
    return made | {"text/plain": WORDS}
