"""A formula in TeX as MathML made of nothing but numbers, letters, signs and their arrangement."""

import re
from html import escape
from xml.etree import ElementTree

from latex2mathml.converter import convert

__all__ = ["formula"]

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
    ElementTree.register_namespace("", SPACE)
    try:
        tree = ElementTree.fromstring(convert(tex[:LONGEST], display=display))
    except Exception:
        return f"<code>{escape(tex)}</code>"
    for part in tree.iter():
        if part.tag.removeprefix(f"{{{SPACE}}}") not in PARTS:
            return f"<code>{escape(tex)}</code>"
        part.attrib = {
            key: value
            for key, value in part.attrib.items()
            if KEPT.fullmatch(key) and VALUE.fullmatch(value)
        }
    return ElementTree.tostring(tree, encoding="unicode")
