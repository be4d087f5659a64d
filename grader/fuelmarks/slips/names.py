"""Slips with a single number: another given, another unit, another zero, a value from a book."""

from collections.abc import Iterator, Mapping

from fuelcircuits.quantities.trade_units import scale

from fuelmarks.formula.kinds import kind_of_unit
from fuelmarks.formula.tree import Name, Node, Number
from fuelmarks.slips.change import COMMON, ONE, RARE, USUAL, Change, View, added, multiplied

__all__ = ["AIR", "BOOK", "name_changes", "number_changes"]

AIR = ("ambient_pressure", "outside_pressure", "barometer")
"""Givens that hold the pressure of the air outside."""
BOOK: Mapping[str, tuple[str, str]] = {
    "density": ("water_density", "the density of water"),
    "ambient": ("standard_air_pressure", "the standard barometer"),
}
"""Values people know by heart, by a word in the name of the given they are taken for."""
MIXED: Mapping[str, tuple[str, ...]] = {
    "psi": ("kPa", "bar", "inHg"),
    "inHg": ("kPa", "psi", "inH2O"),
    "inH2O": ("inHg", "Pa", "kPa", "psi"),
    "kPa": ("psi", "inHg"),
    "1/min": ("1/s",),
    "mm": ("in", "cm"),
    "g/s": ("kg/h",),
    "min": ("s",),
}
"""Units whose numbers people take for each other."""
PRESSURE = kind_of_unit("Pa")


def number_changes(node: Number, view: View) -> Iterator[Change]:
    """Yield the slip of a whole number that is one off."""
    if node.value >= 2 and node.value == int(node.value):
        for step in (-1.0, 1.0):
            yield Change("number-astray", Number(node.value + step), RARE, view.say(node))


def name_changes(node: Name, view: View) -> Iterator[Change]:
    """Yield the slips that are made with a given, an earlier answer or a constant."""
    if node.name not in view.method.units:
        return
    subject = view.say(node)
    yield from _others(node, view, subject)
    yield from _from_a_book(node, view, subject)
    yield from _units(node, view, subject)
    if node.name in view.givens:
        for factor in (2.0, 0.5):
            double = multiplied((1, node), (1, Number(factor)))
            yield Change("two-astray", double, RARE, subject)
    if view.kind(node) == PRESSURE:
        yield from _zero_of_pressure(node, view, subject)
    if view.plain(node):
        yield from _plain(node, subject, view)


def _others(node: Name, view: View, subject: str) -> Iterator[Change]:
    """Yield other numbers of the same kind in this one's place."""
    for name in view.method.units:
        if name == node.name or view.kinds[name] != view.kinds[node.name]:
            continue
        used = name in view.own
        if view.plain(node) and not used:
            continue
        weight = USUAL if used and not view.plain(node) else RARE
        yield Change("other-given", Name(name), weight, subject, view.name(name))


def _from_a_book(node: Name, view: View, subject: str) -> Iterator[Change]:
    for word, (constant, words) in BOOK.items():
        if word in node.name and view.kinds[constant] == view.kind(node):
            yield Change("book-value", Name(constant), USUAL, subject, words)


def _units(node: Name, view: View, subject: str) -> Iterator[Change]:
    """Yield this number taken as if it stood in another unit."""
    unit = view.method.units[node.name]
    if node.name not in view.givens:
        return
    if unit in ("degC", "degF"):
        celsius = added((1, node), (-1, Name("zero_celsius")))
        yield Change("celsius-for-kelvin", celsius, COMMON, subject)
    for other in MIXED.get(unit, ()):
        factor = Number(scale(other).factor / scale(unit).factor)
        yield Change("given-unit", multiplied((1, node), (1, factor)), USUAL, subject, other)
    if unit in ("percent", "%"):
        whole = multiplied((1, node), (1, Number(100.0)))
        yield Change("given-unit", whole, RARE, subject, "a plain number")


def _zero_of_pressure(node: Name, view: View, subject: str) -> Iterator[Change]:
    """Yield a pressure counted from the other zero."""
    own = next((name for name in view.givens if name in AIR and name != node.name), "")
    for air in filter(None, (own, "standard_air_pressure")):
        outside: Node = Name(air)
        yield Change("other-zero", added((1, node), (1, outside)), COMMON, subject)
        yield Change("other-zero", added((1, node), (-1, outside)), RARE, subject)


def _plain(node: Name, subject: str, view: View) -> Iterator[Change]:
    """Yield slips with shares, ratios and counts."""
    if "ratio" in node.name:
        yield Change("ratio-plus-one", added((1, node), (1, ONE)), USUAL, subject)
    if "count" in node.name:
        yield Change("one-less", added((1, node), (-1, ONE)), USUAL, subject)
    if "share" in node.name or view.method.units[node.name] in ("percent", "%"):
        yield Change("other-share", added((1, ONE), (-1, node)), COMMON, subject)
