"""Make pages that show a trainee's notebook harmless: no script of his runs in a grader's browser.

`nbgrader_config.py` names both parts for every HTML page that nbgrader makes, formgrader's and
feedback's: `CleanPage` leaves of a notebook only what the templates may print, and
`markdown_to_html` cleans what Markdown becomes.
"""

import base64
import binascii
import re
from typing import Any

import nh3
from jinja2 import pass_context
from nbconvert.exporters import HTMLExporter
from nbconvert.filters.markdown_mistune import IPythonRenderer, MarkdownWithMath
from nbconvert.preprocessors import Preprocessor

from fuelmarks.course.notebook import NotebookNode, new_cell
from fuelmarks.gradebook.formula import formula

__all__ = ["CleanPage", "FeedbackExporter", "clean_html", "markdown_to_html", "pictures_in"]

PICTURES = ("image/png", "image/jpeg", "image/gif")
PICTURE_DATA = re.compile(r"data:image/(png|jpeg|gif);base64,[A-Za-z0-9+/=\s]*")
MARKS, MARKED = re.compile("[\ue000\ue001]"), re.compile("\ue000([0-9]+)\ue001")
SCRIPT = re.compile(r"<script\b.*?</script>", re.S)
POLICY = (
    '<meta http-equiv="Content-Security-Policy" '
    "content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'\">"
)
TAGS = nh3.ALLOWED_TAGS | {"details", "summary", "mark", "figure", "figcaption", "section"}
ATTRIBUTES = {**nh3.ALLOWED_ATTRIBUTES, "*": {"class", "title", "lang", "dir"}}
CLASSES = re.compile(r"(highlight|hl-[a-z0-9]+|[a-z][a-z0-9]{0,2})( [a-z][a-z0-9]{0,2})*")
CELL_MARKS = ("nbgrader",)


class CleanPage(Preprocessor):
    """Leave of a notebook only plain text, clean HTML and true pictures."""

    def __init__(self, **rest: Any) -> None:
        super().__init__(**rest)  # type: ignore[no-untyped-call]
        self.enabled = True

    def preprocess(
        self, nb: NotebookNode, resources: dict[str, Any]
    ) -> tuple[NotebookNode, dict[str, Any]]:
        """Clean every cell, and drop what the notebook says about itself."""
        nb.cells = [_clean_cell(cell, number) for number, cell in enumerate(nb.cells)]
        nb.metadata = NotebookNode({"language_info": {"name": "python"}})  # type: ignore[no-untyped-call]
        return nb, resources


class FeedbackExporter(HTMLExporter):
    """nbgrader's feedback page without scripts, and with a policy under which none would run."""

    def from_notebook_node(  # type: ignore[override]
        self, nb: NotebookNode, resources: dict[str, Any] | None = None, **rest: Any
    ) -> tuple[str, dict[str, Any]]:
        """Return the page."""
        html, about = super().from_notebook_node(nb, resources, **rest)
        return SCRIPT.sub("", html).replace("<head>", f"<head>{POLICY}", 1), about


@pass_context
def markdown_to_html(context: Any, source: str) -> str:
    """Return Markdown as clean HTML; takes the place of nbconvert's own filter."""
    cell = context.get("cell", {})
    renderer = _Renderer(escape=False, attachments=cell.get("attachments", {}))
    html = clean_html(MarkdownWithMath(renderer=renderer).render(MARKS.sub("", source)))
    return MARKED.sub(lambda mark: renderer.formulas[int(mark[1])], html)


class _Renderer(IPythonRenderer):
    """Puts marks where the formulas are, to be filled in when all else has been cleaned."""

    def __init__(self, **rest: Any) -> None:
        super().__init__(**rest)
        self.formulas: list[str] = []

    def block_math(self, body: str) -> str:
        """Return the mark of a formula on lines of its own."""
        return self._mark(body, "block")

    def inline_math(self, body: str) -> str:
        """Return the mark of a formula in a sentence."""
        return self._mark(body, "inline")

    def _mark(self, body: str, display: str) -> str:
        self.formulas.append(formula(body, display))
        return f"\ue000{len(self.formulas) - 1}\ue001"


def clean_html(html: str) -> str:
    """Return `html` without anything that acts: scripts, handlers, forms, frames, foreign links."""
    return nh3.clean(
        html,
        tags=TAGS,
        attributes=ATTRIBUTES,
        attribute_filter=_attribute,
        url_schemes={"http", "https", "mailto", "data"},
    )


def _attribute(tag: str, name: str, value: str) -> str | None:
    """Return an attribute's value if it may stay: of data pictures, of classes those of code."""
    if name == "class":
        return value if CLASSES.fullmatch(value) else None
    if not value.strip().lower().startswith("data:"):
        return value
    return value if (tag, name) == ("img", "src") and PICTURE_DATA.fullmatch(value) else None


def _clean_cell(cell: NotebookNode, number: int) -> NotebookNode:
    """Return a copy of `cell` with nothing in it that a template would print as it stands."""
    marks = {key: cell.metadata[key] for key in CELL_MARKS if key in cell.metadata}
    kind = "code" if cell.cell_type == "raw" else cell.cell_type
    clean = new_cell(kind, cell.source, name=f"cell-{number}", metadata=marks)
    if kind == "code":
        clean.execution_count = cell.get("execution_count")
        clean.outputs = [kept for one in cell.get("outputs", []) if (kept := _clean_output(one))]
    elif pictures := pictures_in(cell.get("attachments")):
        clean.attachments = pictures
    return clean


def _clean_output(output: NotebookNode) -> NotebookNode | None:
    """Return what may be shown of an output: text, errors, clean HTML, pictures."""
    if output.output_type in ("stream", "error"):
        return output
    shown = {kind: kept for kind, data in output.data.items() if (kept := _clean_data(kind, data))}
    if not shown:
        return None
    return NotebookNode(  # type: ignore[no-untyped-call]
        {"output_type": "display_data", "data": NotebookNode(shown), "metadata": NotebookNode()}  # type: ignore[no-untyped-call]
    )


def _clean_data(kind: str, data: Any) -> str:
    """Return the data of an output if it is of a kind that does nothing, else nothing."""
    if not isinstance(data, str):
        return ""
    if kind == "text/html":
        return clean_html(data)
    if kind in PICTURES:
        return _picture(data)
    return data if kind == "text/plain" else ""


def _picture(data: str) -> str:
    """Return `data` if it is base64 and nothing else."""
    try:
        return base64.b64encode(base64.b64decode("".join(data.split()), validate=True)).decode()
    except (binascii.Error, ValueError):
        return ""


def pictures_in(attachments: Any) -> dict[str, dict[str, str]]:
    """Return the pictures among a cell's attachments, whatever those are."""
    found: dict[str, dict[str, str]] = {}
    for name, kinds in attachments.items() if isinstance(attachments, dict) else ():
        for kind, data in kinds.items() if isinstance(kinds, dict) else ():
            if kind in PICTURES and isinstance(data, str) and _picture(data):
                found.setdefault(str(name), {})[kind] = _picture(data)
    return found
