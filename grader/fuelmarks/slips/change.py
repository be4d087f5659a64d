"""One change to one node of a formula, and what a family of changes may ask about the formula."""

from collections.abc import Mapping
from dataclasses import dataclass

from fuelmarks.formula.functions import CONSTANTS
from fuelmarks.formula.grammar import FormulaError
from fuelmarks.formula.kinds import PLAIN, Kind, kind_of_node, kind_of_unit
from fuelmarks.formula.method import Method
from fuelmarks.formula.tree import Call, Name, Node, Number, Product, Sum
from fuelmarks.formula.writing import as_text, plain_number

__all__ = [
    "COMMON",
    "ONE",
    "RARE",
    "USUAL",
    "Change",
    "View",
    "added",
    "multiplied",
    "without",
]

COMMON, USUAL, RARE = 0.03, 0.01, 0.003
"""How likely a slip is held to be before an answer is seen (judged, no source)."""
ONE = Number(1.0)


@dataclass(frozen=True)
class Change:
    """A node put in the place of another: its family, how likely it is, and of what it speaks."""

    family: str
    node: Node
    weight: float
    subject: str = ""
    other: str = ""


class View:
    """A question's method as the families see it.

    Parameters
    ----------
    method
        The method.
    givens
        The names of the sheet's givens.
    """

    def __init__(self, method: Method, givens: tuple[str, ...]) -> None:
        self.method = method
        self.kinds: Mapping[str, Kind] = {
            **{name: kind_of_unit(each.unit) for name, each in CONSTANTS.items()},
            **method.known_kinds(),
            **method.kinds(),
        }
        used = set(method.formula.needs)
        self.own = tuple(name for name in method.units if name in used)
        self.givens = tuple(name for name in givens if name in method.units)
        self.step_words = {step.name: step.words for step in method.formula.steps}

    def kind(self, node: Node) -> Kind:
        """Return the kind of a node; a node that has none counts as a plain number."""
        try:
            return kind_of_node(node, self.kinds, self.method.tables)
        except FormulaError:
            return PLAIN

    def plain(self, node: Node) -> bool:
        """Return whether a node is a plain number."""
        return self.kind(node) == PLAIN

    def say(self, node: Node) -> str:
        """Return a node for a sentence."""
        match node:
            case Name(name):
                return self.name(name)
            case Number(value):
                return plain_number(value)
            case Call("circle", (inside,)):
                return f"the area of {self.say(inside)}"
        return f"“{as_text(node, self.name)}”"

    def name(self, name: str) -> str:
        """Return the words of a name."""
        own = {key: each.words for key, each in self.method.constants.items()}
        general = {key: each.words for key, each in CONSTANTS.items()}
        known = general | own | dict(self.method.words) | self.step_words
        return known.get(name, name.replace("_", " "))


def multiplied(*factors: tuple[int, Node]) -> Node:
    """Return a product; one of a single factor above the line is that factor."""
    if not factors:
        return ONE
    return factors[0][1] if len(factors) == 1 and factors[0][0] > 0 else Product(tuple(factors))


def added(*terms: tuple[int, Node]) -> Node:
    """Return a sum; one of a single term that adds is that term."""
    return terms[0][1] if len(terms) == 1 and terms[0][0] > 0 else Sum(tuple(terms))


def without(parts: tuple[tuple[int, Node], ...], place: int) -> tuple[tuple[int, Node], ...]:
    """Return all parts but one."""
    return parts[:place] + parts[place + 1 :]
