"""Every candidate for a slip in one question: a changed formula, how likely, and what to say."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from fuelmarks.formula.grammar import FormulaError
from fuelmarks.formula.kinds import Kind, kind_of_unit, kinds_of
from fuelmarks.formula.method import Method
from fuelmarks.formula.tree import (
    Call,
    Formula,
    Name,
    Node,
    Number,
    Path,
    Power,
    Product,
    Step,
    Sum,
    replaced,
    sites,
)
from fuelmarks.formula.value import Values, Working, working
from fuelmarks.slips.calls import call_changes
from fuelmarks.slips.change import Change, View
from fuelmarks.slips.everywhere import formulas_of_everywhere
from fuelmarks.slips.names import name_changes, number_changes
from fuelmarks.slips.powers import power_changes
from fuelmarks.slips.products import product_changes
from fuelmarks.slips.sentences import sentence
from fuelmarks.slips.sums import sum_changes
from fuelmarks.slips.wholes import formulas_of_wholes

__all__ = ["Candidate", "candidates"]

SYSTEMS = (
    ("m", 1.0, 1.0),
    ("mm and g", 1e-3, 1e-3),
    ("cm and g", 1e-2, 1e-3),
    ("mm", 1e-3, 1.0),
    ("g", 1.0, 1e-3),
)
"""Units of length and mass in which a result of the wrong kind may be read as a bare number."""
NATURAL, STRANGE, UNLIKE = 0.5, 0.15, 0.1
"""How much less likely a slip is that changes the kind: in the system that the question shows, in
another, and where unlike terms are then added as bare numbers."""


@dataclass(frozen=True)
class Candidate:
    """One slip: its key, its formula as a working, and what is said of it.

    The key begins with family and step, such as ``root-missing:speed``. `scale` turns the
    formula's number into what the answer would read as.
    """

    family: str
    key: str
    work: Working
    scale: float
    weight: float
    comment: str

    def value(self, values: Values) -> float:
        """Return what the slip comes to; raise `ArithmeticError` or `ValueError` if to nothing."""
        return self.scale * self.work(values)


def candidates(method: Method, givens: tuple[str, ...]) -> list[Candidate]:
    """Return every candidate of a question, each with a key of its own."""
    view, counts = View(method, givens), Counter[str]()
    found = []
    for change, step, formula in _changed(view):
        for one in _read_as(view, change, step, formula):
            counts[one.key] += 1
            number = counts[one.key]
            found.append(one if number == 1 else replace(one, key=f"{one.key}#{number}"))
    return found


def _changed(view: View) -> Iterator[tuple[Change, Step, Formula]]:
    """Yield every change with the step it is made in and the formula that comes of it."""
    formula = view.method.formula
    single: list[tuple[int, Path, Change]] = []
    for place, step in enumerate(formula.steps):
        for path, node in sites(step.node):
            for change in _local(node, view):
                single.append((place, path, change))
                made = replace(step, node=replaced(step.node, path, change.node))
                steps = (*formula.steps[:place], made, *formula.steps[place + 1 :])
                yield change, step, Formula(steps)
    last = formula.steps[-1]
    for change, whole in (*formulas_of_everywhere(view, single), *formulas_of_wholes(view)):
        yield change, last, whole


def _local(node: Node, view: View) -> Iterator[Change]:
    """Yield the changes that may be made to one node."""
    match node:
        case Power():
            yield from power_changes(node, view)
        case Product():
            yield from product_changes(node, view)
        case Sum():
            yield from sum_changes(node, view)
        case Call():
            yield from call_changes(node, view)
        case Number():
            yield from number_changes(node, view)
        case Name():
            yield from name_changes(node, view)


def _read_as(view: View, change: Change, step: Step, formula: Formula) -> Iterator[Candidate]:
    """Yield the ways in which the result of a changed formula may be read as an answer."""
    method, comment = view.method, sentence(change, step.words)
    key = f"{change.family}:{step.name}:{change.subject}"
    work = working(formula, method.tables)
    asked = kind_of_unit(method.unit)
    got = _kind(view, formula)
    if got == asked:
        yield Candidate(change.family, key, work, 1.0, change.weight, comment)
    elif got is None:
        weight = UNLIKE * change.weight
        yield Candidate(change.family, f"{key}@unlike", work, 1.0, weight, comment)
    else:
        for word, factor in _systems(asked, got):
            share = NATURAL if word in _natural(method) else STRANGE
            weight = share * change.weight
            yield Candidate(change.family, f"{key}@{word}", work, factor, weight, comment)


def _kind(view: View, formula: Formula) -> Kind | None:
    """Return the kind of what a changed formula gives, or None if unlike terms are added."""
    names = {**view.method.known_kinds()}
    try:
        return kinds_of(formula, names, view.method.tables)[formula.steps[-1].name]
    except FormulaError:
        return None


def _systems(asked: Kind, got: Kind) -> Iterator[tuple[str, float]]:
    """Yield the unlike factors by which a bare number may be off, each with its system."""
    seen: list[float] = []
    for word, length, mass in SYSTEMS:
        factor = length ** float(asked[0] - got[0]) * mass ** float(asked[1] - got[1])
        if not any(abs(factor / other - 1) < 1e-6 for other in seen):
            seen.append(factor)
            yield word, factor


def _natural(method: Method) -> set[str]:
    """Return the systems that the units shown suggest."""
    shown = {
        method.unit,
        *(method.units[name] for name in method.formula.needs if name in method.units),
    }
    natural = {"m"}
    if shown & {"mm", "mm^2"}:
        natural |= {"mm", "mm and g"}
    if shown & {"cm^2", "cm^3", "ml"}:
        natural.add("cm and g")
    return natural
