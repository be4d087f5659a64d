"""What a trainee wrote is shown whole where it can be, soon, and fetches nothing."""

import base64
import re
from pathlib import Path

import pytest
from fuelmarks.course.notebook import new_cell, notebook
from fuelmarks.gradebook.pictures import Pictures, pictures_in
from fuelmarks.gradebook.sanitise import CleanPage, code_to_html, markdown_to_html
from fuelmarks.gradebook.written_page import LONGEST, written_html
from nbconvert.exporters import HTMLExporter
from traitlets.config import Config

from tests.ending import ends

PNG = base64.b64encode(b"\x89PNG\r\n").decode()
GIVEN = {
    "a.png": {"image/png": PNG},
    "b.gif": {"image/gif": PNG},
    "c.webp": {"image/webp": PNG},
    "d.svg": {"image/svg+xml": ["<svg/>"]},
    "e f.png": {"image/png": PNG},
}
SHOWN = [
    "![x](attachment:a.png)",
    "![x](attachment:b.gif)",
    "![x](attachment:e%20f.png)",
    '<img src="attachment:a.png" alt="a > b">',
    "![x](beside.png)",
    "![x](./beside.png)",
    f"![x](data:image/png;base64,{PNG})",
]
NOT_SHOWN = [
    "![x](attachment:c.webp)",
    "![x](attachment:d.svg)",
    "![x](attachment:missing.png)",
    "![x](missing.png)",
    "![x](../beside.png)",
    "![x](link.png)",
    "![x](https://example.org/x.png)",
    "![x](//example.org/x.png)",
    "![x](data:image/svg+xml;base64,PHN2Zz4=)",
    f"![x](data:image/webp;base64,{PNG})",
    '<img src="https://example.org/x.png" alt="><script>hit()</script>">',
    "<img>",
]
KEPT = {
    "a task": ("- [ ] one\n- [x] other", ["☐ one", "☑ other"]),
    "MathML": ("x <math><mi>x</mi></math> y", ["<p>x <math><mi>x</mi></math> y</p>"]),
    "MathML on lines": ("<math>\n<mi>x</mi>\n</math>", ["<mi>x</mi>"]),
    "MathML in code": ("`<math><mi>x</mi></math>`", ["<code>&lt;math&gt;&lt;mi&gt;"]),
    "a tag as a word": ("a <math> and a <jet area>", ["a &lt;math&gt; and a &lt;jet area&gt;"]),
    "less and more": ("a<b and c>d", ["a&lt;b and c&gt;d"]),
    "a script": ("<script>hit()</script>", ["&lt;script&gt;hit()&lt;/script&gt;"]),
    "active MathML": (
        '<math><mtext onclick="hit()">x</mtext><style>y</style></math>',
        ["<code>&lt;math&gt;"],
    ),
    "lines of TeX": (r"\begin{align}a&=b\end{align}", ["<mtable>"]),
}
SLOW = [
    *(r"\begin{a}", "\\\\[", "$$", "$", "[", "![", "a\n===\n", "**a", "`", "<math>", "> ", "- "),
    *("|a|b|\n|-|-|\n", "<div>\n", "[a](", "\n\n- "),
]


@pytest.fixture
def pictures(tmp_path: Path) -> Pictures:
    (tmp_path / "beside.png").write_bytes(b"\x89PNG\r\n")
    (tmp_path / "link.png").symlink_to(tmp_path / "beside.png")
    return Pictures(pictures_in(GIVEN), tmp_path)


@pytest.mark.parametrize("text", SHOWN)
def test_a_picture_that_is_there_is_shown_as_data(pictures: Pictures, text: str) -> None:
    assert ' src="data:image/' in written_html(text, pictures)


@pytest.mark.parametrize("text", NOT_SHOWN)
def test_any_other_picture_is_said_not_to_be_shown(pictures: Pictures, text: str) -> None:
    html = written_html(text, pictures)
    assert "[picture not shown]" in html
    assert "<img" not in html
    assert "<script" not in html


@pytest.mark.parametrize(("text", "kept"), KEPT.values(), ids=KEPT)
def test_what_was_written_is_not_lost(text: str, kept: list[str]) -> None:
    html = written_html(text)
    assert [one for one in kept if one not in html] == []
    assert "<script" not in html
    assert "onclick" not in html.replace("&quot;", "").split("<code>")[0]


@pytest.mark.parametrize("text", SLOW)
def test_no_text_keeps_a_page_waiting(text: str) -> None:
    with ends():
        html = written_html(text * (360_000 // len(text)))
    assert f"[cut here: {360_000 // len(text) * len(text)} characters were written]" in html


def test_code_is_shown_at_once_whatever_it_is() -> None:
    with ends():
        assert "&lt;b&gt;" in code_to_html("<b>" + " \n" * 200_000)


def test_a_page_has_room_for_so_much_and_says_what_it_left_out() -> None:
    cells = [new_cell("markdown", "x" * 2 * LONGEST) for _ in range(100)]
    held, _ = CleanPage().preprocess(notebook(cells, {}), {})
    shown = [markdown_to_html({"cell": cell}, cell.source) for cell in held.cells]
    assert 300_000 < sum(map(len, shown)) < 320_000
    assert all(one.count("[cut here: 20000 characters were written]") == 1 for one in shown)


def test_nbconverts_page_fetches_nothing_and_breaks_at_no_picture(tmp_path: Path) -> None:
    config = Config()
    config.HTMLExporter.preprocessors = [CleanPage]
    config.HTMLExporter.filters = {
        "markdown2html": markdown_to_html,
        "highlight_code": code_to_html,
    }
    config.HTMLExporter.template_name = "classic"
    cell = new_cell("markdown", "![x](attachment:c.webp) and ![x](beside.png) $x$")
    cell["attachments"] = GIVEN
    (tmp_path / "beside.png").write_bytes(b"\x89PNG\r\n")
    about = {"metadata": {"path": str(tmp_path)}}
    exporter = HTMLExporter(config=config)  # type: ignore[no-untyped-call]
    page, _ = exporter.from_notebook_node(notebook([cell], {}), about)
    assert "[picture not shown]" in page
    assert "data:image/png" in page
    fetched = re.findall(r"""\b(?:src|href)=["']?(?!data:|#)([^"'>\s]+)""", page)
    assert [address for address in fetched if "mathjax" in address.lower()] == []
