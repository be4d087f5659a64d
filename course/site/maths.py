"""Formulas as MathML, which browsers set themselves: no script, and none from elsewhere."""

from typing import Any

from docutils import nodes
from latex2mathml.converter import convert
from sphinx.application import Sphinx

__all__ = ["setup"]


def setup(app: Sphinx) -> dict[str, Any]:
    """Let Sphinx set formulas as MathML."""
    app.add_html_math_renderer("mathml", (_in_line, None), (_alone, None))
    return {"parallel_read_safe": True, "parallel_write_safe": True}


def _in_line(translator: Any, node: nodes.math) -> None:
    translator.body.append(convert(node.astext()))
    raise nodes.SkipNode


def _alone(translator: Any, node: nodes.math_block) -> None:
    translator.body.append(
        f'<div class="math" tabindex="0">{convert(node.astext(), display="block")}</div>'
    )
    raise nodes.SkipNode
