"""What the theme's pages lack for those who use keys or a screen reader, put right at the end."""

import re
from collections.abc import Iterable
from pathlib import Path

__all__ = ["polish", "polished"]

RULES = tuple(
    (re.compile(pattern, re.S), replacement)
    for pattern, replacement in (
        (r'class="caption" role="heading"(?! aria-level)', r'\g<0> aria-level="2"'),
        (r'<aside class="sidebar-drawer"', r'\g<0> aria-label="Course"'),
        (r'<aside class="toc-drawer', r'<aside aria-label="On this page" class="toc-drawer'),
        (r'<div class="table-wrapper', r'<div tabindex="0" class="table-wrapper'),
        (r'<th class="head"><p></p></th>', "<td></td>"),
        (r'<div id="search-results">', r"<h1>Search</h1>\g<0>"),
        (r'Made with\s*<a href="[^"]*">Furo</a>', ""),
    )
)
"""Headings have a level, landmarks a name, what scrolls takes keys, and no heading is empty."""


def polish(pages: Iterable[Path]) -> None:
    """Put pages right where they lie."""
    for page in pages:
        page.write_text(polished(page.read_text("utf-8")), encoding="utf-8")


def polished(html: str) -> str:
    """Return a page put right."""
    for pattern, replacement in RULES:
        html = pattern.sub(replacement, html)
    return html
