"""Every new word of a unit is explained once, in one sentence, and can be found from the page."""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from fuelmarks.authoring.glossary import Term, glossary_page, terms, write_glossary
from fuelmarks.course.course import Course, CourseError

from tests.places import COURSE_FOLDER

COURSE = Course(COURSE_FOLDER)
TERMS = terms(COURSE)
RIGS = {card.stem for card in (COURSE.root / "rigs").glob("*.toml")}
STRESSED = {"with its unit", "with a unit", "above", "below", "and", "off"}
"""Plain words that a unit prints in bold to stress them; they are no terms."""


def bold(unit: str) -> list[str]:
    """Return the terms that a unit sets in bold, in order: no lead-ins, no rigs, no stress."""
    text = re.sub(r"^(:::|```).*?^\1$", "", COURSE.text(unit).read_text("utf-8"), flags=re.M | re.S)
    lines = "\n".join(line for line in text.splitlines() if not line.startswith("|"))
    found = [re.sub(r"\s+", " ", term).lower() for term in re.findall(r"\*\*([^*]+)\*\*", lines)]
    lead_ins = re.compile(r"[.:?!]$|^(step|task|tools|caution)\b")
    return [term for term in found if not lead_ins.search(term) and term not in RIGS | STRESSED]


def first_uses() -> dict[str, str]:
    """Return the first unit that sets each term in bold."""
    first: dict[str, str] = {}
    for unit in COURSE.units():
        for term in bold(unit):
            first.setdefault(term, unit)
    return first


@pytest.mark.parametrize("unit", COURSE.units())
def test_every_bold_term_of_a_unit_is_explained(unit: str) -> None:
    known = {term.name.lower() for term in TERMS}
    assert [term for term in bold(unit) if term not in known] == []


def test_terms_belong_to_the_unit_that_uses_them_first() -> None:
    first = first_uses()
    known = {term.name.lower(): term.unit for term in TERMS if len(term.unit) > 2}
    assert {name: unit for name, unit in known.items() if first.get(name) != unit} == {}


@pytest.mark.parametrize(
    "name",
    [
        *("idle-port chamber", "air-bled well", "pump jet", "outside vent", "nozzle lip"),
        *("start timer", "off-idle bleed valve", "economizer", "pull-off", "metering rod"),
    ],
)
def test_a_part_that_manuals_call_otherwise_says_how(name: str) -> None:
    # Which parts these are: judgement of the trade, common practice, no source.
    (term,) = (one for one in TERMS if one.name == name)
    assert "manual" in term.told


def test_each_term_is_explained_once() -> None:
    names = [term.name.lower() for term in TERMS]
    assert [name for name in names if names.count(name) > 1] == []
    assert [name for name in names if name.endswith("s") and name[:-1] in names] == []


@pytest.mark.parametrize("term", TERMS, ids=lambda term: term.anchor)
def test_a_definition_is_one_sentence(term: Term) -> None:
    assert re.fullmatch(r"[A-Z][^.?!]*(?:\d\.\d[^.?!]*)*\.", term.means)
    assert len(term.means.split()) <= 30


def test_the_words_of_a_manual_lead_to_the_term_of_the_course() -> None:
    known = {term.name: term.manual for term in TERMS}
    for name in ("idle-port chamber", "pump jet", "outside vent", "nozzle lip", "start timer"):
        assert f"The manual may say: {known[name]}." in glossary_page(COURSE)
    own = {name.lower() for name in known}
    told = [one for words in known.values() if words for one in words.split(", ")]
    assert [one for one in told if one in own] == []


def test_the_page_leads_to_every_term_and_unit() -> None:
    page = Links()
    page.feed(glossary_page(COURSE))
    assert page.ids >= {term.anchor for term in TERMS}
    assert {link[1:] for link in page.links if link.startswith("#")} <= page.ids
    files = [link for link in page.links if not link.startswith("#")]
    units = {COURSE.root / link for link in files}
    assert units == {COURSE.notebook("release", term.unit) for term in TERMS if term.unit[2:]}
    assert [path for path in units if not path.exists()] == []


class Links(HTMLParser):
    """Where a page leads, and what in it can be led to."""

    def __init__(self) -> None:
        super().__init__()
        self.links: list[str] = []
        self.ids: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a link or an anchor."""
        self.links += [str(value) for name, value in attrs if name == "href"]
        self.ids |= {str(value) for name, value in attrs if name == "id"}


def course_with(folder: Path, glossary: str) -> Course:
    """Return a course of one unit with this glossary."""
    (folder / "units/02-float").mkdir(parents=True)
    (folder / "units/02-float/unit.md").write_text("", "utf-8")
    (folder / "glossary.toml").write_text(glossary, "utf-8")
    return Course.at(folder)


def test_terms_stand_in_the_order_of_the_alphabet_and_are_escaped(tmp_path: Path) -> None:
    course = course_with(
        tmp_path,
        '["Well"]\nunit = "02"\nmeans = "A <deep> one."\n["bowl"]\nunit = "07"\nmeans = "Round."\n',
    )
    assert [(term.name, term.unit) for term in terms(course)] == [
        ("bowl", "07"),
        ("Well", "02-float"),
    ]
    page = write_glossary(course).read_text("utf-8")
    assert "A &lt;deep&gt; one." in page
    assert page.index("Round.") < page.index("deep")


@pytest.mark.parametrize(
    "glossary",
    [
        '["x"]\nunit = "02"\n',
        '["x"]\n["x"]\n',
        'x = "y"\n',
        '["x"]\nunit="02"\nmeans="a"\nalso=1\n',
    ],
)
def test_a_glossary_that_cannot_be_used_is_refused(tmp_path: Path, glossary: str) -> None:
    with pytest.raises(CourseError, match=r"glossary must be|must have unit and means"):
        terms(course_with(tmp_path, glossary))
