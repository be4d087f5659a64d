"""The instructor's pack: term plan, outcomes map, a lesson plan a unit, and slides of the figures.

All of it is made from the course's own texts, exercises and benches, and printed by Chromium
into ``paper/pack``.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from fuelcircuits.benches import open_bench, stems_in
from fuelcircuits.cards import read_rig
from markupsafe import Markup

from fuelmarks.course.course import Course
from fuelmarks.course.templates import templates
from fuelmarks.paper.chromium import PrintError, find_chromium, print_page
from fuelmarks.paper.lesson_plan import Lesson, lesson, lessons
from fuelmarks.paper.outcomes_map import outcomes_map
from fuelmarks.paper.task_readings import task_readings
from fuelmarks.paper.text import to_html
from fuelmarks.paper.usual_slips import Made

__all__ = ["Slide", "lesson_page", "slides", "slides_page", "term_page", "write_pack"]

RIG = "plover"
NOTHING: Mapping[str, Made] = {}


class Slide(NamedTuple):
    """One figure of a bench, with what to ask the class."""

    unit: str
    title: str
    svg: Markup
    alt: str
    question: str


def write_pack(course: Course, made: Mapping[str, Made] = NOTHING) -> Iterator[Path]:
    """Write every page, print each, and yield the paths of the PDFs.

    `made` holds by unit which slips the class has made in it.

    Raises `PrintError` without Chromium; the pages are then kept as HTML.
    """
    folder = course.root / "paper" / "pack"
    folder.mkdir(parents=True, exist_ok=True)
    pages = {"term": term_page(course), "slides": slides_page(slides(course))}
    pages |= {
        f"lesson-{unit}": lesson_page(course, unit, made.get(unit, {})) for unit in course.units()
    }
    for name, page in pages.items():
        (folder / f"{name}.html").write_text(page, encoding="utf-8")
    try:
        chromium = find_chromium()
    except PrintError as missing:
        raise PrintError(f"{missing}; kept as HTML in {folder}") from None
    for name in pages:
        pdf = folder / f"{name}.pdf"
        print_page(folder / f"{name}.html", pdf, chromium)
        yield pdf


def term_page(course: Course) -> str:
    """Return the plan of the term with the outcomes map."""
    return _page("term.html.j2", lessons=list(lessons(course)), outcomes=list(outcomes_map(course)))


def lesson_page(course: Course, unit: str, made: Made | None = None) -> str:
    """Return the plan of one unit's lesson, with the slips that a class has `made` in it."""
    plan = lesson(course, unit, made or {})
    titles = {one.code: one.title for one in outcomes_map(course)}
    shown = {one.task: one for one in task_readings(course, unit, plan.rig)}
    schemes = [(name, _html(course, plan, text)) for name, text in plan.rubrics]
    texts = {
        "predictions": [(_html(course, plan, one.text), one) for one in plan.predictions],
        "tasks": [
            (_html(course, plan, one), shown.get(number))
            for number, one in enumerate(plan.tasks, start=1)
        ],
        "cautions": [_html(course, plan, one) for one in plan.cautions],
    }
    return _page("lesson.html.j2", plan=plan, titles=titles, schemes=schemes, **texts)


def slides_page(figures: Iterable[Slide]) -> str:
    """Return a page with a slide for each of the figures."""
    return _page("slides.html.j2", slides=list(figures))


def slides(course: Course) -> Iterator[Slide]:
    """Yield the figure of each bench at its start, in the order of the units that use it."""
    rig = read_rig(course.root / "rigs" / f"{RIG}.toml")
    for plan in lessons(course):
        stems = stems_in(course.text(plan.unit).read_text(encoding="utf-8"))
        for count, stem in enumerate(stems):
            bench = open_bench(stem, rig)
            figure, task = bench.figure(), plan.tasks[count * len(plan.tasks) // len(stems)]
            question = Markup(re.sub(r"</?p>", "", _html(course, plan, task)))
            yield Slide(plan.unit, bench.title, Markup(figure.svg), figure.alt, question)


def _html(course: Course, plan: Lesson, text: str) -> Markup:
    """Return Markdown of a unit as HTML."""
    return to_html(text, course.text(plan.unit).parent)


def _page(template: str, **values: Any) -> str:
    """Return one page."""
    return templates().get_template(f"pack/{template}").render(**values)
