"""What a formula is made of: numbers, names, sums, products, powers and calls.

Sums and products are flat lists, so that one change to a formula is one change to a list.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

__all__ = [
    "Call",
    "Formula",
    "Name",
    "Node",
    "Number",
    "Path",
    "Power",
    "Product",
    "Step",
    "Sum",
    "names_in",
    "replaced",
    "sites",
]

Path: TypeAlias = tuple[int, ...]
"""Which child to take at each node on the way down."""


@dataclass(frozen=True)
class Number:
    """A number as the author wrote it."""

    value: float


@dataclass(frozen=True)
class Name:
    """A given, an earlier answer or step, or a constant."""

    name: str


@dataclass(frozen=True)
class Sum:
    """Terms, each with its sign: 1 or -1."""

    terms: tuple[tuple[int, "Node"], ...]


@dataclass(frozen=True)
class Product:
    """Factors, each above the line (1) or below it (-1)."""

    factors: tuple[tuple[int, "Node"], ...]


@dataclass(frozen=True)
class Power:
    """A base with a plain number for exponent; a root has a half."""

    base: "Node"
    exponent: float


@dataclass(frozen=True)
class Call:
    """A function of one or more nodes."""

    function: str
    arguments: tuple["Node", ...]


Node: TypeAlias = Number | Name | Sum | Product | Power | Call


@dataclass(frozen=True)
class Step:
    """One line of a formula: what it is called, how it is worked out, and that in words."""

    name: str
    node: Node
    words: str


@dataclass(frozen=True)
class Formula:
    """Steps in order; the last gives the answer."""

    steps: tuple[Step, ...]

    @property
    def needs(self) -> tuple[str, ...]:
        """The names that must be given from outside, in the order in which they are met."""
        made = {step.name for step in self.steps}
        met = dict.fromkeys(name for step in self.steps for name in names_in(step.node))
        return tuple(name for name in met if name not in made)


def children(node: Node) -> tuple[Node, ...]:
    """Return the nodes right below `node`."""
    match node:
        case Sum(terms):
            return tuple(child for _, child in terms)
        case Product(factors):
            return tuple(child for _, child in factors)
        case Power(base, _):
            return (base,)
        case Call(_, arguments):
            return arguments
    return ()


def sites(node: Node, path: Path = ()) -> Iterator[tuple[Path, Node]]:
    """Yield every node with the path to it, `node` itself first."""
    yield path, node
    for place, child in enumerate(children(node)):
        yield from sites(child, (*path, place))


def replaced(node: Node, path: Path, new: Node) -> Node:
    """Return `node` with what stands at `path` replaced by `new`."""
    if not path:
        return new
    place, rest = path[0], path[1:]
    below = list(children(node))
    below[place] = replaced(below[place], rest, new)
    return _with_children(node, below)


def names_in(node: Node) -> Iterator[str]:
    """Yield the names in `node`, from left to right."""
    return (each.name for _, each in sites(node) if isinstance(each, Name))


def _with_children(node: Node, below: list[Node]) -> Node:
    """Return a node like `node` over other children."""
    match node:
        case Sum(terms):
            return Sum(tuple((sign, new) for (sign, _), new in zip(terms, below, strict=True)))
        case Product(factors):
            return Product(tuple((way, new) for (way, _), new in zip(factors, below, strict=True)))
        case Power(_, exponent):
            return Power(below[0], exponent)
        case Call(function, _):
            return Call(function, tuple(below))
    return node
