"""A state taken apart into a shape and its numbers, and put together again.

The shape is the state as plain data with every number taken out: ``{"#": 0}`` stands for one
number, ``{"#": n}`` for a list of n, ``{"~": "..."}`` for a sentence whose numbers stand as
``{digits}``. States of one shape can be blended number by number; page.js does the same.
"""

import math
import re
from collections.abc import Iterator, Sequence
from typing import Any

__all__ = ["join", "split"]

NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.(\d+))?(?![\w])")
SLOT = re.compile(r"\{(\d)\}")


def split(tree: Any) -> tuple[Any, list[list[float]]]:
    """Return the shape of `tree`, and its numbers in the order in which they stand in it."""
    leaves: list[list[float]] = []
    return _shape(tree, leaves), leaves


def join(shape: Any, leaves: Sequence[list[float]]) -> Any:
    """Return the tree that `shape` and its numbers make; what is no number becomes None."""
    return _filled(shape, iter(leaves))


def _shape(tree: Any, leaves: list[list[float]]) -> Any:
    if isinstance(tree, dict):
        return {name: _shape(part, leaves) for name, part in tree.items()}
    if isinstance(tree, list) and tree and all(_is_number(part) for part in tree):
        leaves.append([_number(part) for part in tree])
        return {"#": len(tree)}
    if isinstance(tree, list):
        return [_shape(part, leaves) for part in tree]
    if isinstance(tree, str):
        return _sentence(tree, leaves)
    if tree is not None and _is_number(tree):
        leaves.append([_number(tree)])
        return {"#": 0}
    return tree


def _is_number(part: Any) -> bool:
    return part is None or (isinstance(part, (int, float)) and not isinstance(part, bool))


def _number(part: float | None) -> float:
    return math.nan if part is None else float(part)


def _sentence(text: str, leaves: list[list[float]]) -> Any:
    """Return the sentence with its numbers taken out, or as it is when it has none."""
    found = list(NUMBER.finditer(text))
    if not found or "{" in text:
        return text
    leaves.append([float(hit[0]) for hit in found])
    return {"~": NUMBER.sub(lambda hit: f"{{{len(hit[1] or '')}}}", text)}


def _filled(shape: Any, leaves: Iterator[list[float]]) -> Any:
    if isinstance(shape, list):
        return [_filled(part, leaves) for part in shape]
    if not isinstance(shape, dict):
        return shape
    if "#" in shape:
        numbers = [None if math.isnan(each) else each for each in next(leaves)]
        return numbers if shape["#"] else numbers[0]
    if "~" in shape:
        said = iter(next(leaves))
        return SLOT.sub(lambda slot: _said(next(said), int(slot[1])), shape["~"])
    return {name: _filled(part, leaves) for name, part in shape.items()}


def _said(value: float, digits: int) -> str:
    return f"{round(value, digits) + 0.0:.{digits}f}"
