"""Print a unit for a class without computers: handout, job sheet, and the instructor's key.

A handout comes from the built notebook, a job sheet from the unit's text and a spec card: that of
the unit's rig, or any other. A page is kept as HTML, and Chromium makes the PDF beside it, in
``paper/UNIT/``. Only the key's own page is ever given an answer.
"""

import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, Literal, NamedTuple, TypeAlias, get_args

from fuelcircuits.drawings.parts import part_with
from markupsafe import Markup

from fuelmarks.authoring.build import SPECIMEN, specimen_sheet
from fuelmarks.course.course import Course, CourseError, Trainee
from fuelmarks.course.personal import personal, release_notebook, sheet_of
from fuelmarks.course.templates import templates
from fuelmarks.course.unit_questions import keep_questions
from fuelmarks.course.unit_text import filled_text, of_card
from fuelmarks.paper.chromium import PrintError, find_chromium, print_page
from fuelmarks.paper.key import key_lines, rubrics
from fuelmarks.paper.sheet import SECTION, SHOP, PaperSheet, shop_blocks
from fuelmarks.paper.text import to_html
from fuelmarks.questions import ExerciseSet, Sheet

__all__ = [
    "KINDS",
    "JobSheet",
    "PaperKind",
    "handout_page",
    "job_page",
    "job_sheet",
    "key_page",
    "print_job",
    "print_unit",
]

PaperKind: TypeAlias = Literal["handout", "job", "key"]
KINDS: tuple[PaperKind, ...] = get_args(PaperKind)
NOBODY = Trainee("", "")
NUMBERED = re.compile(r", part\u00a0\d+")
"""How a sheet names a part's number in the atlas."""


class JobSheet(NamedTuple):
    """A job sheet as a page, and what its card left blank to be written in."""

    page: str
    blank: tuple[str, ...]


def print_unit(
    course: Course, unit: str, kind: PaperKind = "handout", trainee: str | None = None
) -> Iterator[Path]:
    """Write the pages of `unit`, print each, and yield the paths of the PDFs.

    Raises `PrintError` without Chromium; the pages are then kept as HTML.
    """
    course.text(unit)
    keep_questions(course.root, unit)
    yield from _printed([_keep(course, unit, kind, one) for one in _people(course, kind, trainee)])


def print_job(course: Course, unit: str, sheet: JobSheet, card: Path) -> Iterator[Path]:
    """Write and print a job sheet that was made from the card of this file, as `print_unit`."""
    folder = course.root / "paper" / unit / "job"
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{card.stem}.html"
    path.write_text(sheet.page, encoding="utf-8")
    yield from _printed([path])


def _printed(pages: Sequence[Path]) -> Iterator[Path]:
    """Print pages that are kept as HTML, and yield the paths of the PDFs."""
    try:
        chromium = find_chromium()
    except PrintError as missing:
        raise PrintError(f"{missing}; kept as HTML in {pages[0].parent}") from None
    for page in pages:
        pdf = page.with_suffix(".pdf")
        print_page(page, pdf, chromium)
        yield pdf


def handout_page(course: Course, unit: str, trainee: Trainee) -> str:
    """Return the unit on paper, with the numbers of `trainee` and room to write."""
    exercise_set = course.questions(unit)
    sheet = _sheet(course, exercise_set, trainee.id)
    made = personal(release_notebook(course, unit), exercise_set, sheet, trainee.id)
    rig = made.metadata.get("fuelcircuits", {}).get("rig", "")
    paper = PaperSheet(
        exercise_set,
        dict(sheet.givens_shown),
        course.folder("release", unit),
        course.root / "rigs" / f"{rig}.toml" if rig else None,
    )
    blocks = list(paper.blocks(made.cells))
    return _page("handout.html.j2", unit, exercise_set, trainee, blocks=blocks)


def job_page(course: Course, unit: str, trainee: Trainee = NOBODY) -> str:
    """Return the job sheet alone; raise `CourseError` if the unit has no job in the shop."""
    text = filled_text(
        course.text(unit), course.root / "rigs", lambda entry, number, _rig: _of_part(entry, number)
    )
    return _job(course, unit, text, trainee)


def job_sheet(course: Course, unit: str, card: Path) -> JobSheet:
    """Return the job sheet of `unit` for the carburettor whose card is the file `card`.

    Raises
    ------
    CourseError
        If the unit has no job in the shop, or the card's numbers do not go together.
    CardError
        If an entry of the card is unknown, of the wrong kind or out of its range.
    """
    text, of = course.text(unit), of_card(card, course.root / "units", blanks=True, shown=_of_part)
    section = SECTION.search(text.read_text(encoding="utf-8"))
    made = of.filled(section[0] if section else "", f"{unit}, the job in the shop")
    return JobSheet(_job(course, unit, made, NOBODY), tuple(dict.fromkeys(of.missing)))


def _job(course: Course, unit: str, text: str, trainee: Trainee) -> str:
    """Return the page of the job in the shop that stands in `text`."""
    blocks = shop_blocks(text, course.text(unit).parent)
    if not blocks:
        raise CourseError(f"{unit} must have a section {SHOP!r} to print a job sheet, got none")
    named = any(NUMBERED.search(block) for block in blocks)
    values = {"blocks": blocks, "atlas": named}
    return _page("job.html.j2", unit, course.questions(unit), trainee, **values)


def _of_part(entry: str, number: str) -> str:
    """Return a number of the card with that of its part in the atlas, if there is one."""
    found = part_with(entry)
    return f"{number}, part\u00a0{found.number}" if found else number


def key_page(course: Course, unit: str, trainee: Trainee) -> str:
    """Return the instructor's key to the numbers of `trainee`."""
    exercise_set = course.questions(unit)
    lines = list(key_lines(exercise_set, _sheet(course, exercise_set, trainee.id)))
    schemes = [
        (name, to_html(text, course.text(unit).parent)) for name, text in rubrics(course, unit)
    ]
    texts = {"schemes": schemes, "predictions": exercise_set.predictions}
    return _page("key.html.j2", unit, exercise_set, trainee, lines=lines, **texts)


PAGES = {"handout": handout_page, "job": job_page, "key": key_page}


def _people(course: Course, kind: PaperKind, trainee: str | None) -> list[Trainee]:
    """Return whom to print for: one, everybody, or, for the job sheet, nobody by name."""
    if trainee is None:
        people = [NOBODY] if kind == "job" else list(course.trainees())
        if not people:
            raise CourseError(f"class must have a trainee, got none in {course.root}")
        return people
    if trainee == SPECIMEN:
        return [Trainee(SPECIMEN)]
    known = {one.id: one for one in course.trainees()}
    if trainee not in known:
        raise CourseError(f"trainee must be {SPECIMEN} or in class.csv, got {trainee!r}")
    return [known[trainee]]


def _sheet(course: Course, exercise_set: ExerciseSet, trainee: str) -> Sheet:
    """Return the numbers of `trainee`; the specimen has those of the released notebook."""
    if trainee == SPECIMEN:
        return specimen_sheet(exercise_set)
    return sheet_of(course, exercise_set, trainee)


def _keep(course: Course, unit: str, kind: PaperKind, trainee: Trainee) -> Path:
    """Write one page and return its path."""
    folder = course.root / "paper" / unit / kind
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{trainee.id or kind}.html"
    path.write_text(PAGES[kind](course, unit, trainee), encoding="utf-8")
    return path


def _page(
    template: str, unit: str, exercise_set: ExerciseSet, trainee: Trainee, **values: Any
) -> str:
    """Return one page."""
    pages = templates("templates/paper")
    pages.filters.update(css=_css, words=lambda name: name.replace("-", " ").capitalize())
    title = f"{unit[:2]} · {exercise_set.title}"
    return pages.get_template(template).render(title=title, trainee=trainee, **values)


def _css(text: str) -> Markup:
    """Return `text` as a CSS string in which nothing can end the string or the style sheet."""
    safe = (one if one.isalnum() or one in " .,-" else f"\\{ord(one):x} " for one in text)
    return Markup('"{}"').format(Markup("".join(safe)))
