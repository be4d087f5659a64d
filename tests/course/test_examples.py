"""Help that fades: which sums have an example before them, and that worked ones and gaps hold."""

import re
from collections.abc import Iterator
from math import pi, sqrt
from typing import Any

import pytest
from fuelcircuits.quantities.units import Q
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.directives import Directive, split
from fuelmarks.course.examples import example_of, gaps_code, worked_text
from fuelmarks.formula.method import Method
from fuelmarks.formula.tree import Call, Formula, Name, Node, Power, Product, Sum, children
from fuelmarks.questions import Exercise, load

from tests.places import COURSE_FOLDER

COURSE = Course(COURSE_FOLDER)
UNITS = COURSE.units()
EARLIER = "## From earlier units"
FULL, HALF = 4, 9
"""Units below the first number prepare every kind of sum, those below the second every other."""


def directives(unit: str) -> list[Directive]:
    """Return the directives of a unit in order."""
    path = COURSE.text(unit)
    return [one for one in split(path.read_text("utf-8"), path) if isinstance(one, Directive)]


def method_of(unit: str, name: str) -> Method:
    found = load(unit)[name].method
    assert found
    return found


def own_sums(unit: str) -> list[Exercise]:
    """Return the sums that a unit asks first; of a unit that has none, those at its end."""
    own = COURSE.text(unit).read_text("utf-8").split(EARLIER)[0]
    sums = [one for one in load(unit) if one.method and not one.sketch]  # a reading is no sum
    asked = [one for one in sums if f":::{{exercise}} {one.id}\n" in own]
    return asked or sums


def sort(node: Node) -> str:
    """Return what is done at one place of a formula."""
    match node:
        case Sum(terms):
            return "".join("+" if sign > 0 else "-" for sign, _ in terms)
        case Product(factors):
            return "".join("*" if way > 0 else "/" for way, _ in factors)
        case Power(_, exponent):
            return f"^{exponent:g}"
        case Call(function):
            return function
    return ""


def shape(formula: Formula) -> str:
    """Return how a sum goes, whatever its quantities are called."""
    steps = {step.name: step.node for step in formula.steps}

    def written(node: Node) -> str:
        if isinstance(node, Name) and node.name in steps:
            return written(steps[node.name])
        return f"{sort(node)}[{','.join(map(written, children(node)))}]"

    return written(formula.steps[-1].node)


def kinds(unit: str, kind: str) -> set[str]:
    """Return the kinds of a unit's own sums that have an example of this kind before them."""
    order = directives(unit)
    asked = {one.name: place for place, one in enumerate(order) if one.kind == "exercise"}
    return {
        shape(method_of(unit, one.name).formula)
        for place, one in enumerate(order)
        if one.kind == kind and place < asked[one.name]
    }


def wanted(unit: str) -> int:
    """Return how many kinds of sums a unit prepares, worked out and with gaps."""
    found = len({shape(one.method.formula) for one in own_sums(unit) if one.method})
    number = int(unit[:2])
    return found if number < FULL else (found + 1) // 2 if number < HALF else 1


@pytest.mark.parametrize("unit", UNITS)
def test_help_fades_over_the_term(unit: str) -> None:
    assert len(kinds(unit, "worked")) >= wanted(unit)
    assert len(kinds(unit, "gaps")) >= wanted(unit)
    assert int(unit[:2]) < FULL or len(kinds(unit, "worked")) <= wanted(unit) + 1


def gap_cells() -> Iterator[Any]:
    """Yield every cell with gaps."""
    for unit in UNITS:
        for one in directives(unit):
            if one.kind == "gaps":
                yield pytest.param(gaps_code(example_of(one, load(unit))), id=f"{unit}-{one.name}")


@pytest.mark.parametrize("code", list(gap_cells()))
def test_gaps_are_missed_until_the_last_is_filled(
    code: str, capsys: pytest.CaptureFixture[str]
) -> None:
    names = re.findall(r"^(gap_\w+) = \.\.\.", code, flags=re.M)
    exec(code.replace("= ...", '= "1.2 mm"', len(names) - 1), {"Q": Q})
    assert "still gaps" in capsys.readouterr().out
    exec(code.replace("= ...", '= "1.2 mm"'), {"Q": Q})
    assert re.match(r"1\.2 mm ; it should come to \S", capsys.readouterr().out)


def example(kind: str, unit: str, name: str) -> str:
    (one,) = [each for each in directives(unit) if (each.kind, each.name) == (kind, name)]
    made = example_of(one, load(unit))
    return worked_text(made) if kind == "worked" else gaps_code(made)


def test_worked_examples_come_to_what_a_hand_gets() -> None:
    # By hand: seat of 3 mm at 24 kPa, and a level lifted by 5 g of 740 kg/m3 over 20 cm2.
    push = 24e3 * pi / 4 * 3e-3**2
    assert f"**{push:.4g} N**" in example("worked", "02-float-bowl", "needle-force")
    rise = 5e-3 / 740 / 20e-4 * 1e3
    assert f"= {rise:.4g} mm**" in example("worked", "02-float-bowl", "soaked-level-shift")


def test_gaps_come_to_what_a_hand_gets() -> None:
    # By hand: a bore of 5 mm behind a curtain of 2.4 mm.
    curtain, bore = pi * 5 * 2.4, pi / 4 * 5**2
    opening = 1 / sqrt(1 / curtain**2 + 1 / bore**2)
    assert f"come to {opening:.4g} mm²" in example("gaps", "03-bowl-vents", "vent-opening")


WRONG = {
    "a question nobody asks": ("lift-off", "seat_bore = 2 mm\n\nIt leaks.", "must be of one of"),
    "a number left out": ("needle-force", "seat_bore = 2 mm\n\nIt leaks.", "numbers must be"),
    "no number": ("needle-force", "seat_bore: 2 mm\n\nIt leaks.", "must be written like"),
    "a unit nobody knows": ("needle-force", "seat_bore = 2 furlocks\n\nIt leaks.", "furlocks"),
    "another kind of unit": (
        "needle-force",
        "seat_bore = 2 kPa\nsupply_pressure = 3 kPa\n\nIt leaks.",
        "seat_bore must have a unit of its kind",
    ),
    "a name nobody gave": (
        "needle-force",
        "seat_bore = 2 mm\nsupply_pressure = 3 kPa\n\nIt has {legs}.",
        "text must name one of",
    ),
    "nothing told": (
        "needle-force",
        "seat_bore = 2 mm\nsupply_pressure = 3 kPa",
        "must say what happened",
    ),
}


@pytest.mark.parametrize(("name", "body", "rule"), WRONG.values(), ids=WRONG)
def test_a_wrong_example_is_named(name: str, body: str, rule: str) -> None:
    unit = "02-float-bowl"
    one = Directive("worked", name, body, COURSE.text(unit), 7)
    with pytest.raises(CourseError, match=f"line 7: .*{rule}"):
        example_of(one, load(unit))
