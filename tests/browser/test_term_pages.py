"""The term's book and the record of competence, printed on A4: all of it is on the paper."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from fuelmarks.book.competence import competences
from fuelmarks.book.term_pages import competence_page, states
from fuelmarks.book.writing import page as made
from fuelmarks.course.outcomes import in_order
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from tests.book.long_term import OUTCOMES, long_term
from tests.browser.watch import watched

pytestmark = pytest.mark.browser
LANDSCAPE, PORTRAIT = (842, 595), (595, 842)


@pytest.fixture
def page(chromium: Browser) -> Iterator[Page]:
    with watched(chromium) as page:
        yield page


def pages_of(units: int) -> dict[str, str]:
    """Return the three kinds of page for a term of so many units."""
    book = long_term(units)
    found = competences(book.records, OUTCOMES)
    shown = in_order({one.outcome.code for each in found for one in each.standings}, OUTCOMES)
    return {
        "term": made("term.html.j2", book=book, states=states),
        "competence": competence_page(book, found, shown),
        "one": made("one_competence.html.j2", one=found[0], records=book.records),
    }


def printed(page: Page, html: str, path: Path) -> tuple[str, tuple[int, int]]:
    """Print a page; return its text, less the spaces, and its size; see that nothing sticks out."""
    page.set_content(html)
    page.pdf(path=path, prefer_css_page_size=True, print_background=True)
    sheets = PdfReader(path).pages
    width, height = (round(float(side)) for side in sheets[0].mediabox[2:])
    outside: list[str] = []

    def seen(text: str, cm: list[float], tm: list[float], *_: object) -> None:
        across = tm[4] * cm[0] + cm[4]
        if text.strip() and not 0 <= across <= width - 10:
            outside.append(text)

    text = "".join(sheet.extract_text(visitor_text=seen) for sheet in sheets)
    assert outside == []
    return re.sub(r"\s", "", text), (width, height)


@pytest.mark.parametrize("units", [13, 18])
def test_the_terms_book_is_whole_on_paper(page: Page, tmp_path: Path, units: int) -> None:
    text, size = printed(page, pages_of(units)["term"], tmp_path / "term.pdf")
    assert size == LANDSCAPE
    for line in long_term(units).lines:
        assert line.trainee.name.replace(" ", "") in text
    for record in long_term(units).records:
        assert record.title.replace(" ", "") in text
    assert all(word in text for word in ("again", "meanofMorning", "1waiting", "attempt3of3"))


@pytest.mark.parametrize("units", [13, 18])
def test_the_record_of_competence_is_whole_on_paper(page: Page, tmp_path: Path, units: int) -> None:
    text, size = printed(page, pages_of(units)["competence"], tmp_path / "competence.pdf")
    assert size == LANDSCAPE
    assert [code for code in OUTCOMES if code not in text] == []
    names = [line.trainee.name.replace(" ", "") for line in long_term(units).lines]
    assert {text.count(name) for name in names} <= {5, 10, 15}


def test_one_trainees_record_is_whole_on_paper(page: Page, tmp_path: Path) -> None:
    text, size = printed(page, pages_of(13)["one"], tmp_path / "one.pdf")
    assert size == PORTRAIT
    assert text.count("☑thelevelisabalance.") >= 9
    assert "date,instructor" in text


@pytest.mark.parametrize("kind", ["term", "competence", "one"])
def test_the_pages_can_be_used_by_everybody(page: Page, screens: Path, kind: str) -> None:
    page.set_content(pages_of(13)[kind])
    page.screenshot(path=screens / f"book-{kind}.png", full_page=True)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
