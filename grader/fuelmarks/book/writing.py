"""Put a page or a table of the book into a file."""

import csv
import io
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from fuelmarks.book.class_figures import mastery
from fuelmarks.course.templates import templates
from fuelmarks.marking.wording import level, short, words

__all__ = ["page", "percent", "put", "table"]

FORMULAS = ("=", "+", "-", "@", "\t")


def page(template: str, **values: Any) -> str:
    """Return one page."""
    pages = templates()
    pages.filters.update(words=words, short=short, level=level, percent=percent, number=_number)
    pages.filters.update(beyond=_beyond)
    pages.globals.update(mastery=mastery)
    return pages.get_template(template).render(**values)


def table(rows: Iterable[Sequence[str]]) -> str:
    """Return `rows` as CSV in which no cell can act as a formula."""
    text = io.StringIO()
    safe = [[f"'{cell}" if cell[:1] in FORMULAS else cell for cell in row] for row in rows]
    csv.writer(text, lineterminator="\r\n").writerows(safe)
    return text.getvalue()


def put(path: Path, text: str) -> Path:
    """Write one report; a table with the mark by which spreadsheets know its encoding."""
    encoding = "utf-8-sig" if path.suffix == ".csv" else "utf-8"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding=encoding, newline="")
    return path


def percent(share: float | None) -> str:
    """Return a share as a whole number of percent."""
    return "" if share is None else f"{100 * share:.0f}"


def _beyond(comment: str, verdict: str) -> str:
    """Return what a comment says beyond the words of the verdict that stand before it."""
    first, _, rest = comment.partition(".")
    return rest.strip() if first.strip().lower() == words(verdict).lower() else comment


def _number(points: float | None) -> str:
    """Return points as one writes them."""
    return "" if points is None else f"{points:g}"
