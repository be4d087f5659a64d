"""Nothing that a trainee writes acts in the page of whoever marks it.

The attacks are the usual ones from memory; the browser test shows that none runs.
"""

import base64
import re
from html.parser import HTMLParser
from typing import Any

import pytest
from fuelmarks.course.notebook import NotebookNode, new_cell, notebook
from fuelmarks.gradebook.formula import formula
from fuelmarks.gradebook.sanitise import LINK, CleanPage, markdown_to_html, named_link
from fuelmarks.gradebook.written_page import clean_html
from nbformat.notebooknode import from_dict

PNG = base64.b64encode(b"\x89PNG\r\n").decode()
PASSIVE = {
    *("p", "a", "b", "i", "em", "strong", "code", "pre", "span", "div", "img", "table", "thead"),
    *("tbody", "tr", "td", "th", "ul", "ol", "li", "br", "h1", "h2", "h3"),
    *("math", "mrow", "mi", "mo", "mn", "mtext", "mfrac", "msup"),
}
HARMLESS_ADDRESS = re.compile(r"https?:|mailto:|data:image/(png|jpeg|gif);base64,|#|[\w/.-]*$")

ATTACKS = {
    "script": "<script>hit()</script>",
    "handler": '<img src="x" onerror="hit()">',
    "svg": '<svg onload="hit()"><script>hit()</script></svg>',
    "frame": '<iframe srcdoc="<script>hit()</script>"></iframe>',
    "link": "[go](javascript:hit())",
    "link with a tab": '<a href="java\tscript:hit()">go</a>',
    "data page": '<a href="data:text/html,<script>hit()</script>">go</a>',
    "data picture that is none": '<img src="data:image/svg+xml;base64,PHN2Zz4=">',
    "form": '<form action="/formgrader"><input name="x"></form>',
    "style": "<style>body { display: none }</style>",
    "style of one": '<p style="position: fixed">x</p>',
    "object": '<object data="x.swf"></object>',
    "math": r"$\href{javascript:hit()}{x}$",
    "math with a script": r"$\text{<script>hit()</script>}$",
    "math with a handler": r'$\text{<mtext onclick="hit()">x</mtext>}$',
    "unclosed": "<scr<script>ipt>hit()</scr</script>ipt>",
    "markup in math": '<math><mtext><table><mglyph><style><img src=x onerror="hit()">',
    "autolink": "<javascript:hit()>",
}


class Reader(HTMLParser):
    """Reads a page as a browser does and notes what could act."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.acts: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in PASSIVE:
            self.acts.append(tag)
        for name, value in attrs:
            address = name in ("href", "src", "action", "data")
            if name.startswith("on") or name in ("style", "srcdoc"):
                self.acts.append(name)
            if address and not HARMLESS_ADDRESS.match(value or ""):
                self.acts.append(f"{name}={value}")


def page(markdown: str, cell: dict[str, Any] | None = None) -> str:
    return markdown_to_html({"cell": cell or {}}, markdown)


def cleaned(cell: NotebookNode) -> NotebookNode:
    found, _ = CleanPage().preprocess(notebook([cell], {"title": "<script>"}), {})
    assert "title" not in found.metadata
    cells: list[NotebookNode] = found.cells
    return cells[0]


def with_output(**output: Any) -> NotebookNode:
    cell = new_cell("code", "1")
    cell.outputs = [from_dict(output)]  # type: ignore[no-untyped-call]
    return cell


def data(**kinds: str) -> dict[str, Any]:
    named = {kind.replace("__", "/"): text for kind, text in kinds.items()}
    return {"output_type": "display_data", "data": named, "metadata": {"x": "y"}}


@pytest.mark.parametrize("attack", ATTACKS.values(), ids=ATTACKS)
def test_markdown_holds_nothing_active(attack: str) -> None:
    assert Reader(page(attack)).acts == []


@pytest.mark.parametrize("attack", ATTACKS.values(), ids=ATTACKS)
def test_html_holds_nothing_active(attack: str) -> None:
    assert Reader(clean_html(attack)).acts == []


@pytest.mark.parametrize("attack", [one for one in ATTACKS.values() if one.startswith("<")])
def test_the_attacks_would_act(attack: str) -> None:
    assert Reader(attack).acts != []


HARMLESS = {
    "emphasis": ("**bold**", "<strong>bold</strong>"),
    "less than": ("`a < b` and 3 < 4", "3 &lt; 4"),
    "a table": ("|a|b|\n|-|-|\n|1|2|", "<td>1</td>"),
    "a link": ("[x](https://example.org)", 'href="https://example.org"'),
    "a picture": (f"![x](data:image/png;base64,{PNG})", f"data:image/png;base64,{PNG}"),
    "a formula": (r"$F = p A$", "<mi>F</mi>"),
    "a formula of its own": ("$$\nF = p A\n$$", 'display="block"'),
}


@pytest.mark.parametrize(("markdown", "kept"), HARMLESS.values(), ids=HARMLESS)
def test_harmless_markdown_stays(markdown: str, kept: str) -> None:
    assert kept in page(markdown)


def test_a_pasted_picture_is_shown() -> None:
    attached = {"a.png": {"image/png": PNG}}
    assert f"data:image/png;base64,{PNG}" in page(
        "![x](attachment:a.png)", {"attachments": attached}
    )


def test_a_pasted_page_is_not() -> None:
    cell = new_cell("markdown", "![x](attachment:a.png)")
    cell["attachments"] = {"a.png": {"text/html": "PHNjcmlwdD4="}}
    assert "attachments" not in cleaned(cell)


OUTPUTS: dict[str, tuple[dict[str, Any], dict[str, str]]] = {
    "a script": (data(application__javascript="hit()"), {}),
    "a drawing": (data(**{"image__svg+xml": "<svg/>"}), {}),
    "a widget": (data(**{"application__vnd.jupyter.widget-view+json": "{}"}), {}),
    "tex": (data(text__latex=r"$\href{javascript:hit()}{x}$"), {}),
    "text": (data(text__plain="a < b"), {"text/plain": "a < b"}),
    "a page": (data(text__html="<b>x</b><script>hit()</script>"), {"text/html": "<b>x</b>"}),
    "a picture": (data(image__png=PNG), {"image/png": PNG}),
    "no picture": (data(image__png='"><script>hit()</script>'), {}),
}


@pytest.mark.parametrize(("output", "kept"), OUTPUTS.values(), ids=OUTPUTS)
def test_of_outputs_only_harmless_kinds_stay(output: dict[str, Any], kept: dict[str, str]) -> None:
    outputs = cleaned(with_output(**output)).outputs
    assert [dict(one.data) for one in outputs] == ([kept] if kept else [])
    assert all(one.metadata == {} for one in outputs)


def test_raw_cells_are_shown_as_text() -> None:
    assert cleaned(new_cell("raw", "<script>hit()</script>")).cell_type == "code"


def test_cells_lose_all_marks_but_nbgraders() -> None:
    cell = new_cell("code", "1", metadata={"nbgrader": {"grade_id": "a"}, "tags": ["<script>"]})
    assert dict(cleaned(cell).metadata) == {"nbgrader": {"grade_id": "a"}}


FORMULAS = {
    "a fraction": (r"\frac{\pi d^2}{4}", "<mfrac>"),
    "an unclosed one": ("\\begin{array}{", "<code>"),
    "an alien part": (r"\text{<b>x</b>}", "<code>"),
    "less than": ("a < b", "&lt;"),
    "one too long": ("x+" * 5000, "<math"),
}


@pytest.mark.parametrize(("tex", "kept"), FORMULAS.values(), ids=FORMULAS)
def test_a_formula_becomes_mathml_or_stays_code(tex: str, kept: str) -> None:
    assert kept in formula(tex)


def test_the_card_is_folded_and_what_a_trainee_has_written_is_not() -> None:
    card = "%%writefile plover.toml\nname = 'plover'\n" + "x = 1\n" * 200
    marks = {"nbgrader": {"grade_id": "05-card", "locked": True}}
    own = {"nbgrader": {"grade_id": "05-card-answer", "locked": False}}
    cells = [new_cell("code", card, name="a", metadata=marks)]
    cells.append(new_cell("code", card, name="b", metadata=own))
    page, _ = CleanPage().preprocess(notebook(cells, {}), {})
    assert page.cells[0].source.splitlines()[0] == "%%writefile plover.toml"
    assert len(page.cells[0].source.splitlines()) == 2
    assert page.cells[1].source == card


def test_the_list_of_answers_calls_each_by_its_name() -> None:
    page = '<li><a href="#comment-05-tip-height-answer">Comment</a></li>'
    page += '<li><a href="#05-tip-height">Test cell</a> (Score: 0.0 / 1.0)</li>'
    named = LINK.sub(named_link, page)
    assert ">Tip height: comment</a>" in named
    assert ">Tip height</a> (Score: 0.0 / 1.0)" in named
