"""Markdown as HTML for paper: formulas as MathML, pictures inside the page, cautions in boxes."""

import re
from pathlib import Path

from latex2mathml.converter import convert
from markupsafe import Markup
from nbconvert.filters.markdown_mistune import IPythonRenderer, MarkdownWithMath

__all__ = ["BLANK", "to_html"]

BLANK = Markup('<span class="blank"></span>')
"""A line to write on."""

CAUTION = re.compile(r"(<strong>Caution[.:]?</strong>.*?)(?=</p>|</li>|\n<ul|\n<ol)", re.S)
BOX = r'<span class="caution" role="note">\1</span>'
UNDERSCORES = re.compile(r"_{4,}")


class _PaperRenderer(IPythonRenderer):
    """Sets formulas where nbconvert would leave them to a script."""

    def block_math(self, body: str) -> str:
        """Return a formula that stands by itself."""
        return convert(body.strip(), display="block")

    def inline_math(self, body: str) -> str:
        """Return a formula in a line of text."""
        return convert(body.strip())


def to_html(source: str, pictures: Path) -> Markup:
    """Return Markdown as HTML; `pictures` is the folder of the figures it names."""
    renderer = _PaperRenderer(
        escape=False, embed_images=True, exclude_anchor_links=True, path=str(pictures)
    )
    html = MarkdownWithMath(renderer=renderer).render(source)
    return Markup(UNDERSCORES.sub(str(BLANK), CAUTION.sub(BOX, html)))
