"""The report's page as HTML, where no notebook turns its Markdown into that.

Only what the page is made of: paragraphs, tables, lists, words in bold, and lines folded away.
"""

import re
from collections.abc import Iterator
from html import escape
from itertools import groupby, zip_longest

from fuelcircuits.own_car.unbroken import unbroken

__all__ = ["page_html"]

NARROW = 3
"""Columns of a table that a phone has room for [1]."""
_BOLD = re.compile(r"\*\*(.+?)\*\*")
_FOLD = ("<details>", "</details>", "<summary>", "</summary>")


def page_html(page: str) -> str:
    """Return a page of Markdown as HTML."""
    kinds = {"table": _table, "list": _list, "text": _text}
    lines = page.splitlines()
    return "".join(
        "".join(kinds[kind](list(group))) for kind, group in groupby(lines, _kind) if kind in kinds
    )


def _kind(line: str) -> str:
    """Return what a line is part of; an empty one of nothing."""
    if not line.strip():
        return ""
    return {"|": "table", "-": "list"}.get(line[0], "text")


def _table(lines: list[str]) -> Iterator[str]:
    """Yield a table: its heads, a line between, its rows.

    A narrow screen shows the rows of a wide one below each other, so each cell names its head.
    """
    heads, _, *rows = ([cell.strip() for cell in line[1:-1].split("|")] for line in lines)
    wide = ' class="fc-wide"' if len(heads) > NARROW else ""
    named = ["td", *(f'td data-head="{escape(head)}"' for head in heads[1:])]
    yield f"<table{wide}><thead>{_row(['th'] * len(heads), heads)}</thead><tbody>"
    yield from (_row(named, row) for row in rows)
    yield "</tbody></table>"


def _row(cells: list[str], words: list[str]) -> str:
    pairs = zip_longest(cells[: len(words)], words, fillvalue="td")
    return f"<tr>{''.join(f'<{cell}>{_words(one)}</{cell[:2]}>' for cell, one in pairs)}</tr>"


def _list(lines: list[str]) -> Iterator[str]:
    yield "<ul>"
    yield from (f"<li>{_words(line.removeprefix('- '))}</li>" for line in lines)
    yield "</ul>"


def _text(lines: list[str]) -> Iterator[str]:
    """Yield a paragraph, or lines folded away."""
    words = _words(" ".join(lines))
    for tag in _FOLD:
        words = words.replace(escape(tag), tag)
    yield words if words.startswith(_FOLD[0]) else f"<p>{words}</p>"


def _words(text: str) -> str:
    return _BOLD.sub(r"<strong>\1</strong>", escape(unbroken(text), quote=False))
