"""What a trainee wrote in Markdown as HTML that does nothing, within bearable time.

Pictures become data within the page or words that say there is one, formulas become MathML, and
a tag that no page of ours needs is shown as it was written.
"""

import re
from collections.abc import Callable
from html import escape
from typing import Any

import nh3
from nbconvert.filters.markdown_mistune import (
    IPythonRenderer,
    MarkdownWithMath,
    MathInlineParser,
)

from fuelmarks.gradebook.formula import formula, literal
from fuelmarks.gradebook.pictures import Pictures

__all__ = ["LONGEST", "clean_html", "cut", "written_html"]

LONGEST = 10_000
"""How much of a cell is shown [characters]."""
MOST_OPENERS = 60
OPENERS = re.compile(r"\\begin\{|\\\\[\[(]|(?<!\\)\$|!?\[|^[=-]{2,}[ \t]*$", re.M)
"""What begins something that has to be looked for the end of: many of them take long to read."""
NOT_SHOWN = "<em>[picture not shown]</em>"
DRAWING = re.compile(r'<img alt="([^"<>]*)" src="data:image/svg\+xml;base64,[A-Za-z0-9+/=]*">')
"""A drawing of a unit's text, which goes out with the notebook; a page of marks has its words."""
MARKS, MARKED = re.compile("[\ue000\ue001]"), re.compile("\ue000([0-9]+)\ue001")
MATHML = re.compile(r"<math\b[^<>]{0,300}>(?:(?!<math\b).){0,2000}?</math\s*>", re.S | re.I)
TAG = re.compile(r"<(?=/?([A-Za-z][A-Za-z0-9-]*)([^<>]*))")
IMAGE = re.compile(r"<img\b[^>]*>")
TAGS = nh3.ALLOWED_TAGS | {"details", "summary", "mark", "figure", "figcaption", "section"}
ATTRIBUTES = {**nh3.ALLOWED_ATTRIBUTES, "*": {"class", "title", "lang", "dir"}}
CLASSES = re.compile(r"(highlight|hl-[a-z0-9]+|[a-z][a-z0-9]{0,2})( [a-z][a-z0-9]{0,2})*")


def written_html(source: str, pictures: Pictures | None = None) -> str:
    """Return Markdown as clean HTML; what would take long to read as the text it is."""
    source = MARKS.sub("", cut(DRAWING.sub(r"<em>[drawing: \1]</em>", source)))
    if len(OPENERS.findall(source)) > MOST_OPENERS:
        return f"<pre>{escape(source)}</pre>"
    renderer = _Renderer(escape=False, exclude_anchor_links=True)
    reader = MarkdownWithMath(renderer=renderer, inline=_Inline(hard_wrap=False))
    html = clean_html(reader.render(source), pictures)
    return MARKED.sub(lambda mark: renderer.formulas[int(mark[1])], html)


def cut(text: str, longest: int = LONGEST) -> str:
    """Return the beginning of `text`, with a note of how long it was if something was cut."""
    if len(text) <= longest:
        return text
    return f"{text[:longest]}\n\n[cut here: {len(text)} characters were written]"


def clean_html(html: str, pictures: Pictures | None = None) -> str:
    """Return `html` without anything that acts: scripts, handlers, forms, frames, foreign links."""
    clean = nh3.clean(
        html,
        tags=TAGS,
        attributes=ATTRIBUTES,
        attribute_filter=_filter(pictures or Pictures()),
        url_schemes={"http", "https", "mailto", "data", "attachment"},
    )
    return IMAGE.sub(lambda hit: hit[0] if ' src="data:' in hit[0] else NOT_SHOWN, clean)


def _filter(pictures: Pictures) -> Callable[[str, str, str], str | None]:
    """Return what decides on an attribute: its value if it may stay, another one, or None."""

    def kept(tag: str, name: str, value: str) -> str | None:
        if name == "class":
            return value if CLASSES.fullmatch(value) else None
        if (tag, name) == ("img", "src"):
            return pictures.shown(value)
        if value.strip().lower().startswith(("data:", "attachment:")):
            return None
        return re.sub("[<>]", "", value) if tag == "img" else value

    return kept


class _Inline(MathInlineParser):
    """Reads formulas that are written in MathML as one piece."""

    SPECIFICATION = {  # noqa: RUF012 - as the class above has it
        **MathInlineParser.SPECIFICATION,
        "mathml": MATHML.pattern,
    }
    DEFAULT_RULES = ("mathml", *MathInlineParser.DEFAULT_RULES)

    def parse_mathml(self, found: re.Match[str], state: Any) -> int:
        """Read one formula."""
        state.append_token({"type": "mathml", "raw": found[0]})
        return found.end()


class _Renderer(IPythonRenderer):
    """Puts marks where the formulas are, to be filled in when all else has been cleaned."""

    def __init__(self, **rest: Any) -> None:
        super().__init__(**rest)
        self.formulas: list[str] = []

    def block_math(self, body: str) -> str:
        """Return the mark of a formula on lines of its own."""
        return self._mark(formula(body, "block"))

    def inline_math(self, body: str) -> str:
        """Return the mark of a formula in a sentence."""
        return self._mark(formula(body, "inline"))

    def latex_environment(self, name: str, body: str) -> str:
        """Return the mark of a formula of several lines."""
        return self._mark(formula(rf"\begin{{{name}}}{body}\end{{{name}}}", "block"))

    def mathml(self, text: str) -> str:
        """Return the mark of a formula that was written in MathML."""
        return self._mark(literal(text))

    def task_list_item(self, text: str, checked: bool = False) -> str:
        """Return an item of a list with its box, ticked or not."""
        return f"<li>{'☑' if checked else '☐'} {text}</li>\n"

    def block_code(self, code: str, info: str | None = None) -> str:
        """Return code as it is, in one colour."""
        return f"<pre><code>{escape(code)}</code></pre>\n"

    def block_html(self, html: str) -> str:
        """Return lines of HTML, with formulas as marks and strange tags as text."""
        return _shown(MATHML.sub(lambda hit: self.mathml(hit[0]), html))

    def inline_html(self, html: str) -> str:
        """Return one tag, as text if it is a strange one."""
        return _shown(html)

    def _embed_image_or_attachment(self, src: str) -> str:
        """Leave a picture's address for the cleaning."""
        return src

    def _mark(self, html: str) -> str:
        self.formulas.append(html)
        return f"\ue000{len(self.formulas) - 1}\ue001"


def _shown(html: str) -> str:
    """Return `html` in which what is no tag of ours stands as text: ``a <b and c> d`` too."""

    def kept(hit: re.Match[str]) -> str:
        said = hit[2].strip(" /\n")
        return "<" if hit[1].lower() in TAGS and (not said or "=" in said) else "&lt;"

    return TAG.sub(kept, html)
