"""Formulas as MathML made of nothing but numbers, letters, signs and their arrangement."""

import re
from html import escape
from xml.etree import ElementTree

from latex2mathml.converter import convert

__all__ = ["formula", "literal"]

SPACE = "http://www.w3.org/1998/Math/MathML"
PARTS = frozenset(
    (
        *("math", "mrow", "mi", "mo", "mn", "mtext", "mspace", "mstyle", "mpadded", "mphantom"),
        *("msup", "msub", "msubsup", "mfrac", "msqrt", "mroot", "mover", "munder", "munderover"),
        *("mtable", "mtr", "mtd"),
    )
)
KEPT = re.compile(
    r"display|stretchy|fence|form|mathvariant|columnalign|linethickness|(min|max)size"
)
VALUE = re.compile(r"[A-Za-z0-9.% -]{0,40}")
LONGEST = 2000


def formula(tex: str, display: str = "inline") -> str:
    """Return `tex` as MathML; as plain code if it cannot be read or holds anything else."""
    try:
        return _passive(convert(tex[:LONGEST], display=display))
    except Exception:
        return f"<code>{escape(tex)}</code>"


def literal(mathml: str) -> str:
    """Return a formula that was written in MathML; as plain code if it holds anything else."""
    try:
        return _passive(mathml)
    except (ElementTree.ParseError, ValueError):
        return f"<code>{escape(mathml)}</code>"


def _passive(mathml: str) -> str:
    """Return MathML with nothing but its known parts; raise `ValueError` if it has others."""
    ElementTree.register_namespace("", SPACE)
    tree = ElementTree.fromstring(mathml)
    for part in tree.iter():
        if part.tag.removeprefix(f"{{{SPACE}}}") not in PARTS:
            raise ValueError(f"formula must hold known parts, got {part.tag}")
        part.attrib = {
            key: value
            for key, value in part.attrib.items()
            if KEPT.fullmatch(key) and VALUE.fullmatch(value)
        }
    return ElementTree.tostring(tree, encoding="unicode")
