"""Make pages that show a trainee's notebook harmless: no script of his runs in a grader's browser.

`nbgrader_config.py` names the parts for every HTML page that nbgrader makes, formgrader's and
feedback's: `CleanPage` leaves of a notebook only what the templates may print, and
`markdown_to_html` and `code_to_html` take the place of nbconvert's own filters.
"""

import re
from html import escape
from pathlib import Path
from typing import Any

from jinja2 import ChoiceLoader, DictLoader, pass_context
from nbconvert.exporters import HTMLExporter
from nbconvert.preprocessors import Preprocessor

from fuelmarks.course.notebook import NotebookNode, new_cell
from fuelmarks.gradebook.pictures import KINDS, Pictures, picture_data, pictures_in
from fuelmarks.gradebook.written_page import LONGEST, clean_html, cut, written_html

__all__ = [
    "LINK",
    "CleanPage",
    "FeedbackExporter",
    "code_to_html",
    "markdown_to_html",
    "named_link",
]

LONGEST_PAGE = 300_000
"""How much of a whole notebook is shown [characters]; the cells after that are left empty."""
SCRIPT = re.compile(r"<script\b.*?</script>", re.S)
POLICY = (
    '<meta http-equiv="Content-Security-Policy" '
    "content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'\">"
)
NO_MATHJAX = {"mathjax.html.j2": "{% macro mathjax(url='') %}{% endmacro %}"}
"""Takes the place of the template that fetches MathJax from elsewhere: formulas are MathML here."""
CELL_MARKS = ("nbgrader",)
LOOK = (
    "<style>.highlight pre, .output pre { white-space: pre-wrap; word-break: normal;"
    " overflow-wrap: break-word; }"
    "@media print { .prompt, .panel-heading .pull-right a { display: none; }"
    " .nbgrader_cell, pre { break-inside: avoid; } }</style>"
)
LINK = re.compile(
    r'(<a href="#(comment-)?\d\d-([a-z0-9-]+?)(?:-answer)?">)'
    "(?:Comment|Test cell|Written response)</a>"
)
"""What nbgrader's list of answers calls each of them."""
CARD = "-card"
FOLDED = "\n# The rest of the rig's spec card stands in the notebook."


class CleanPage(Preprocessor):
    """Leave of a notebook only plain text, clean HTML and true pictures, of bearable length."""

    def __init__(self, **rest: Any) -> None:
        super().__init__(**rest)  # type: ignore[no-untyped-call]
        self.enabled = True

    def preprocess(
        self, nb: NotebookNode, resources: dict[str, Any]
    ) -> tuple[NotebookNode, dict[str, Any]]:
        """Clean every cell, and drop what the notebook says about itself."""
        if isinstance(self.parent, HTMLExporter):
            pages = self.parent.environment
            pages.loader = ChoiceLoader([DictLoader(NO_MATHJAX), pages.loader])
        room = LONGEST_PAGE
        for number, cell in enumerate(nb.cells):
            nb.cells[number] = _clean_cell(cell, number, room)
            room = max(0, room - min(len(cell.source), LONGEST))
        nb.metadata = NotebookNode({"language_info": {"name": "python"}})  # type: ignore[no-untyped-call]
        return nb, resources


class FeedbackExporter(HTMLExporter):
    """nbgrader's feedback page without scripts, and with a policy under which none would run."""

    def from_notebook_node(  # type: ignore[override]
        self, nb: NotebookNode, resources: dict[str, Any] | None = None, **rest: Any
    ) -> tuple[str, dict[str, Any]]:
        """Return the page."""
        html, about = super().from_notebook_node(nb, resources, **rest)
        html = LINK.sub(named_link, SCRIPT.sub("", html)).replace("</head>", f"{LOOK}</head>", 1)
        return html.replace("<head>", f"<head>{POLICY}", 1), about


def named_link(link: re.Match[str]) -> str:
    """Return a link in the list of answers under the question's name."""
    opened, comment, name = link.groups()
    return f"{opened}{name.replace('-', ' ').capitalize()}{': comment' if comment else ''}</a>"


@pass_context
def markdown_to_html(context: Any, source: str) -> str:
    """Return Markdown as clean HTML; takes the place of nbconvert's own filter."""
    cell, about = context.get("cell", {}), context.get("resources", {})
    folder = about.get("metadata", {}).get("path")
    pictures = Pictures(cell.get("attachments", {}), Path(folder) if folder else None)
    return written_html(source, pictures)


def code_to_html(source: str, **_: Any) -> str:
    """Return code in one colour; to colour some texts takes a minute."""
    return f'<div class="highlight"><pre>{escape(source)}</pre></div>'


def _clean_cell(cell: NotebookNode, number: int, room: int) -> NotebookNode:
    """Return a copy of `cell` with nothing in it that a template would print as it stands."""
    marks = {key: cell.metadata[key] for key in CELL_MARKS if key in cell.metadata}
    kind = "code" if cell.cell_type == "raw" else cell.cell_type
    longest = LONGEST if kind == "code" else len(cell.source)  # what is written is cut later
    source = cut(_folded(cell.source, marks), longest if room else 0)
    clean = new_cell(kind, source, name=f"cell-{number}", metadata=marks)
    if kind == "code":
        clean.execution_count = cell.get("execution_count")
        clean.outputs = [kept for one in cell.get("outputs", []) if (kept := _clean_output(one))]
    elif pictures := pictures_in(cell.get("attachments")):
        clean.attachments = pictures
    return clean


def _folded(source: str, marks: dict[str, Any]) -> str:
    """Return the source of a cell, of the one that lays down the card its first line alone."""
    about = marks.get("nbgrader", {})
    is_card = str(about.get("grade_id", "")).endswith(CARD) and about.get("locked")
    return source.partition("\n")[0] + FOLDED if is_card else source


def _clean_output(output: NotebookNode) -> NotebookNode | None:
    """Return what may be shown of an output: text, errors, clean HTML, pictures."""
    if output.output_type == "stream":
        return _node(output_type="stream", name="stdout", text=cut(str(output.text)))
    if output.output_type == "error":
        lines = [cut(str(line)) for line in output.traceback[:50]]
        return _node(
            output_type="error",
            ename=cut(str(output.ename), 200),
            evalue=cut(str(output.evalue)),
            traceback=lines,
        )
    shown = {kind: kept for kind, data in output.data.items() if (kept := _clean_data(kind, data))}
    if not shown:
        return None
    return _node(output_type="display_data", data=_node(**shown), metadata=_node())


def _clean_data(kind: str, data: Any) -> str:
    """Return the data of an output if it is of a kind that does nothing, else nothing."""
    if not isinstance(data, str):
        return ""
    if kind == "text/html":
        return clean_html(cut(data))
    if kind in KINDS:
        return picture_data(data)
    return cut(data) if kind == "text/plain" else ""


def _node(**held: Any) -> NotebookNode:
    """Return a part of a notebook."""
    return NotebookNode(held)  # type: ignore[no-untyped-call]
