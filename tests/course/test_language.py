"""The units' language: how spelled, whether two units of one size agree, and where links lead."""

import re
from pathlib import Path

import pytest
from fuelcircuits.quantities.trade_units import scale
from fuelmarks.course.course import Course
from spellchecker import SpellChecker

from tests.places import COURSE_FOLDER

COURSE = Course(COURSE_FOLDER)
UNITS = COURSE.units()
OWN_CAR = COURSE.root / "own-car" / "own-car.md"
TEXTS = [*(COURSE.text(unit) for unit in UNITS), OWN_CAR]

WORDS = """
    analyser bleeds carboned carburettor carburettors centimetre centimetres flexivity inhg kerb kg
    kilomoles lbf millimetre millimetres ml mm neighbour nm psi restrictor rpm soots vapour venturi
    venturis
    brettschneider exp ft mph nmm
"""
"""Words of the trade, an author, units and a function, which no general word list has."""
AMERICAN = re.compile(
    r"\b(?:colors?|centers?|analyz\w+|vapors?|liters?|gray|odors?|millimeters?|fibers?|"
    r"carburetors?|neighbors?|aluminum|gasoline|behavior|labor|catalog)\b",
    flags=re.I,
)

NUMBER, SIZE = r"([−-]?\d[\d,.]*\d|[−-]?\d)", r"([A-Za-zµ°][\w°/²³]*)"
TWICE = re.compile(rf"{NUMBER} {SIZE} \({NUMBER} {SIZE}\)")
PINT = {"°C": "degC", "°F": "degF", "inH2O": "inH2O", "in": "inch"}
"""How units are written in a text and how they are known."""

each_text = pytest.mark.parametrize("path", TEXTS, ids=lambda path: path.parent.name)


def prose(path: Path) -> str:
    """Return what a trainee reads: no code, formulas, tables or directives."""
    text = re.sub(r"\A---\n.*?\n---\n", "", told(path), flags=re.S)
    for unread in (
        r"```.*?```",
        r"\$\$.*?\$\$",
        r"(?m)^\|.*$",
        r"(?m)^:::.*$",
        r"(?m)^\+\+\+$",
        r"\{\w+: [\w .-]+\}",
    ):
        text = re.sub(unread, "", text, flags=re.S if "(?m)" not in unread else 0)
    text = re.sub(r"\$[^$\n]*\$|`[^`\n]*`", "it", text)
    return re.sub(r"[*_#]|^\s*(?:\d+\.|-)\s", "", text, flags=re.M)


def two_units(path: Path) -> list[tuple[str, str]]:
    """Return every size that the text gives twice, such as 31 kPa (4.5 psi)."""
    return [(f"{hit[1]} {hit[2]}", f"{hit[3]} {hit[4]}") for hit in TWICE.finditer(told(path))]


def told(path: Path) -> str:
    """Return a unit's text with the numbers of its examples in place."""
    text = path.read_text(encoding="utf-8")
    examples = re.compile(r"^:::\{(?:worked|gaps)\}.*?\n(.*?)\n\n(.*?)^:::$", re.M | re.S)

    def filled(example: re.Match[str]) -> str:
        given = dict(line.split(" = ") for line in example[1].splitlines())
        return re.sub(r"\{(\w+)\}", lambda hit: given[hit[1]].replace("deg", "°"), example[2])

    return examples.sub(filled, text)


def si(size: str) -> tuple[float, float]:
    """Return a size in SI, and half a unit of its last figure."""
    number, unit = size.split(" ", 1)
    way = scale(PINT.get(unit, unit))
    bare = number.replace(",", "").replace("−", "-")
    half = 0.5 * 10.0 ** -len(bare.partition(".")[2]) * way.factor
    return float(bare) * way.factor + way.offset, abs(half)


@each_text
def test_a_size_given_in_two_units_is_one_size(path: Path) -> None:
    wrong = []
    for first, second in two_units(path):
        (one, rough), (other, rougher) = si(first), si(second)
        if not abs(one - other) <= rough + rougher + 0.02 * abs(one):
            wrong.append((first, second))
    assert wrong == []


def test_sizes_in_two_units_are_found() -> None:
    found = two_units(COURSE.text("02-float-bowl"))
    assert ("24 kPa", "3.5 psi") in found
    assert ("40 °C", "104 °F") in found


@each_text
def test_every_word_is_spelled(path: Path) -> None:
    words = {word.lower() for word in re.findall(r"[A-Za-z][a-z]+", prose(path))}
    assert set(SpellChecker(language="en").unknown(words)) - set(WORDS.split()) == set()


@each_text
def test_the_spelling_is_british(path: Path) -> None:
    assert AMERICAN.findall(prose(path)) == []


@each_text
def test_every_link_and_figure_leads_to_a_file(path: Path) -> None:
    targets = re.findall(r"\]\(([^)\s]+)\)", path.read_text(encoding="utf-8"))
    assert [one for one in targets if not (path.parent / one.partition("#")[0]).exists()] == []
