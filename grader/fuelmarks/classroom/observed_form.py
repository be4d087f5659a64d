"""The form for observed work: one piece of work at a time, in a notebook of the instructor's.

from fuelmarks.classroom.observed_form import observed_form
observed_form("course")
"""

from datetime import date, datetime
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as widgets
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.field import asleep
from fuelcircuits.own_car.press import Press

from fuelmarks.classroom.observed import Observation, Seen, enter, read_observed, standing
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import KERNEL, NotebookNode, new_cell, notebook
from fuelmarks.course.outcomes import read_outcomes

__all__ = ["ObservedForm", "form_notebook", "observed_form"]

LATEST = 12
WIDE = widgets.Layout(width="46em", max_width="98%")
STYLE = {"description_width": "9em"}
RESULTS = (
    ("pass", "pass"),
    ("not yet", "not yet"),
    ("withdrawn: the line under corrects", "withdrawn"),
)
WORDS = """# Observed work

Go to the cell below and press Ctrl+Enter: the form stands under it then, and Tab leads from field \
to field. Fill in one line for each piece of work that somebody has watched, and press *Write it \
down*. Nothing that was written is ever changed: to put a line right, write it anew and \
give the old line's number under *corrects*."""


def observed_form(folder: str | Path = ".") -> widgets.VBox:
    """Return the form for the course in `folder`; raise `CourseError` if none is there."""
    return ObservedForm(Course.at(Path(folder))).box


def form_notebook(folder: Path) -> NotebookNode:
    """Return the notebook that shows the form for the course in `folder`."""
    code = (
        "from fuelmarks.classroom.observed_form import observed_form\n\n"
        f"observed_form({str(folder)!r})"
    )
    cells = [new_cell("markdown", WORDS, name="words"), new_cell("code", code, name="form")]
    return notebook(cells, KERNEL)


class ObservedForm:
    """The fields, the button, what was said last, and the newest lines."""

    def __init__(self, course: Course) -> None:
        self.course = course
        people = [(f"{one.name} ({one.id})", one.id) for one in course.trainees()]
        watched = [one for one in read_outcomes(course).values() if one.watched]
        if not watched:
            raise CourseError("outcomes.toml must hold an outcome of kind 'doing', got none")
        codes = [(f"{one.code} {one.title}", one.code) for one in watched]
        self.trainee = widgets.Dropdown(options=people, **_named("trainee"))
        self.outcome = widgets.Dropdown(options=codes, **_named("outcome"))
        self.day = widgets.DatePicker(value=date.today(), **_named("observed on"))
        self.reading = widgets.Text(
            placeholder="what was read or seen, with its unit", **_named("reading")
        )
        self.result = widgets.Dropdown(options=RESULTS, **_named("result"))
        self.watched_by = widgets.Text(**_named("watched by"))
        self.note = widgets.Text(**_named("note"))
        self.corrects = widgets.BoundedIntText(value=0, min=0, max=999_999, **_named("corrects"))
        fields = self._fields()
        self.button = Press(self.write_down, fields, description="Write it down", primary=True)
        self.said, self.latest = widgets.HTML(), widgets.HTML()
        self._show()
        parts = [asleep(), *fields, self.button, self.said, self.latest]
        self.box = widgets.VBox(parts).add_class("own-form")

    def write_down(self, held: list[Any]) -> None:
        """Enter what the fields held, or say which rule it breaks; a refused entry stays."""
        try:
            taken = enter(self.course, [_seen(held)], datetime.now().astimezone())
        except (CircuitError, OSError) as error:
            self.said.value = f"<p role='alert'><b>Not written down:</b> {_why(error)}</p>"
            return
        numbers = ", ".join(str(one.number) for one in taken.new)
        words = f"Written down as line {numbers}." if numbers else KNOWN
        self.said.value = f"<p role='status'>{words}</p>"
        self.reading.value, self.note.value, self.corrects.value = "", "", 0
        self._show()

    def _fields(self) -> list[widgets.Widget]:
        """Return the fields in the order in which they are filled in."""
        first = [self.trainee, self.outcome, self.day, self.reading, self.result]
        return [*first, self.watched_by, self.note, self.corrects]

    def _show(self) -> None:
        """Show the newest lines, those that were corrected struck out."""
        lines = read_observed(self.course)
        kept = {one.number for one in standing(lines)}
        rows = "".join(_row(one, one.number in kept) for one in reversed(lines[-LATEST:]))
        head = "".join(f"<th style='text-align: left'>{name}</th>" for name in HEADINGS)
        self.latest.value = f"<table><tr>{head}</tr>{rows}</table>" if rows else ""


KNOWN = "That stood there already, word for word; it was not written twice."
HEADINGS = ("line", "trainee", "outcome", "day", "reading", "result", "watched by", "note")


def _seen(held: list[Any]) -> Seen:
    """Return what the fields held, in their order, as work that was seen."""
    trainee, outcome, day, reading, result, watched_by, note, corrects = held
    return Seen(
        trainee=trainee or "",
        outcome=outcome or "",
        day=day.isoformat() if day else "",
        reading=reading.strip(),
        result=result,
        watched_by=watched_by.strip(),
        note=note.strip(),
        corrects=corrects,
    )


def _named(name: str) -> dict[str, object]:
    """Return what all fields have in common."""
    return {"description": name, "layout": WIDE, "style": STYLE}


def _why(error: Exception) -> str:
    """Return why work was refused, as lines of a page; that it was is said before them."""
    head, *lines = str(error).splitlines()
    said = [one.removeprefix("this work: ") for one in lines] or [head]
    return "<br>".join(escape(line) for line in said)


def _row(one: Observation, stands: bool) -> str:
    """Return a line as a row of the table."""
    seen = one.seen
    note = f"{seen.note} (corrects {seen.corrects})" if seen.corrects else seen.note
    cells = [str(one.number), seen.trainee, seen.outcome, seen.day, seen.reading]
    cells += [seen.result, seen.watched_by, note.strip()]
    style = "" if stands else " style='text-decoration: line-through'"
    return f"<tr{style}>{''.join(f'<td>{escape(cell)}</td>' for cell in cells)}</tr>"
