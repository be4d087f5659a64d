"""The cells of a built unit as the blocks of a printed sheet."""

import base64
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from fuelcircuits.benches import open_bench, stems_in
from fuelcircuits.cards import read_rig
from markupsafe import Markup

from fuelmarks.course.cells import ask_id, begin_id
from fuelmarks.course.notebook import NotebookNode, grade_id
from fuelmarks.course.prediction_cells import is_answer
from fuelmarks.paper.code import Sum, sums
from fuelmarks.paper.text import to_html
from fuelmarks.questions import ExerciseSet, Shown

__all__ = ["SECTION", "SHOP", "PaperSheet", "shop_blocks"]

SHOP = "## In the shop"
SECTION = re.compile(rf"^{SHOP}.*?(?=^##? |\Z)", re.M | re.S)
NO_BENCH = "The bench is on the screen only."
RULES = Markup('<div class="rules">{}</div>').format(Markup("<i></i>") * 10)
ANSWER = Markup(
    '<div class="working">Working</div>'
    '<p class="answer">Answer <span class="blank"></span> Unit <span class="blank"></span></p>'
)
RESULT = Markup(
    '<span class="result">= <span class="blank"></span> Unit <span class="blank"></span></span>'
)
AT_A_COMPUTER = Markup('<p class="aside">This one is driven, on a computer.</p>')
CHOICE = Markup('<p class="answer">My choice <span class="blank"></span></p>')


def shop_blocks(text: str, pictures: Path) -> list[Markup]:
    """Return the job in the shop of a unit's text, from its heading to the next of its rank."""
    found = SECTION.search(text)
    parts = re.split(r"^\+\+\+.*$", found[0], flags=re.M) if found else []
    return [to_html(part.strip(), pictures) for part in parts]


@dataclass(frozen=True)
class PaperSheet:
    """Turns cells into blocks: knows the numbers a trainee is given, never an answer."""

    exercise_set: ExerciseSet
    shown: dict[str, Shown]
    folder: Path
    rig: Path | None = None

    def blocks(self, cells: Sequence[NotebookNode]) -> Iterator[Markup]:
        """Yield the block of each cell that has a place on paper."""
        for cell in cells:
            block = self._code(cell) if cell.cell_type == "code" else self._text(cell)
            if block:
                yield block

    def _text(self, cell: NotebookNode) -> Markup:
        """Return the block of a text cell; an exercise gets room to work and a line to answer."""
        if cell.metadata.get("nbgrader", {}).get("solution"):
            return RULES
        html = to_html(cell.source, self.folder)
        unit = self.exercise_set.unit
        asked = {ask_id(unit, one.id): one for one in self.exercise_set}.get(grade_id(cell))
        if asked:
            rooms = {"value": ANSWER, "drive": AT_A_COMPUTER}
            room = rooms.get(asked.form, CHOICE)
            return Markup('<section class="question">{}{}</section>').format(html, room)
        if cell.source.startswith(SHOP):
            return Markup('<div class="shop">{}</div>').format(html)
        return html

    def _code(self, cell: NotebookNode) -> Markup:
        """Return what stands on paper for a code cell; for most of them nothing."""
        unit = self.exercise_set.unit
        if grade_id(cell) == begin_id(unit):
            return self._numbers()
        if grade_id(cell):
            return Markup("")
        if is_answer(cell, unit):
            return CHOICE
        if stems := stems_in(cell.source):
            return self._bench(stems[0])
        lines = [_line(one) for one in sums(cell.source)]
        block = Markup('<div class="sums">{}</div>').format(Markup("").join(lines))
        return block if lines else Markup("")

    def _numbers(self) -> Markup:
        """Return the trainee's numbers as a table."""
        row = Markup("<tr><td>{}</td><td><strong>{}</strong></td></tr>")
        rows = [
            row.format(given.meaning, self.shown[given.name].text)
            for given in self.exercise_set.givens
            if not given.drawn
        ]
        return Markup('<table class="numbers"><caption>Your numbers</caption>{}</table>').format(
            Markup("").join(rows)
        )

    def _bench(self, stem: str) -> Markup:
        """Return the bench as it stands at the start, in a picture and in words."""
        note = Markup('<p class="aside">{}</p>').format(NO_BENCH)
        if self.rig is None:
            return note
        figure = open_bench(stem, read_rig(self.rig)).figure()
        data = base64.b64encode(figure.svg.encode()).decode()
        picture = Markup(
            '<figure><img src="data:image/svg+xml;base64,{}" alt="{}">'
            "<figcaption>{} This is where it stands before anything is moved: {}</figcaption>"
            "</figure>"
        )
        return picture.format(data, figure.alt, NO_BENCH, figure.alt)


def _line(one: Sum) -> Markup:
    """Return a sum as a line, with room for result and unit if it is open."""
    left = Markup("<p>{} ").format(one.name)
    if one.working:
        left += Markup("= {} ").format(one.working)
    if one.open:
        left += RESULT
    if one.remark:
        left += Markup("<small>{}</small>").format(one.remark)
    return left + Markup("</p>")
