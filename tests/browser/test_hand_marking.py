"""Marking by hand with keys alone: ticks, saving, moving on; nothing of a trainee's runs."""

import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from fuelmarks.course.course import Course
from fuelmarks.gradebook.standing import Standing, standings
from fuelmarks.hand_marking.server import HandMarking
from fuelmarks.runner import Runner
from playwright.sync_api import Browser, Page, expect

from tests.browser.watch import watched
from tests.small_unit import UNIT
from tests.written_class import QUESTION, answer, mark, written_class

pytestmark = pytest.mark.browser
PIXEL = (
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk"
    "+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=="
)
"""A picture of one dot."""
ATTACKS = """Words, and *more*. <script>window.hit = true</script>
<img src="x" onerror="window.hit = true"><svg onload="window.hit = true"></svg>
![pasted](attachment:a.png) $F = p A$ <math><mi>x</mi></math>

- [x] weighed
- [ ] set
"""
ANSWERS = [ATTACKS, "The needle closes.", "It smells. " * 200, "Level."]


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory, runner: Runner) -> Course:
    course = written_class(tmp_path_factory.mktemp("course"), ANSWERS)
    answer(course, "t001", ATTACKS, {"a.png": {"image/png": PIXEL}})
    mark(course, runner)
    return course


@pytest.fixture
def address(course: Course) -> Iterator[str]:
    """The address that the command prints."""
    with HandMarking(course, UNIT) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield server.address(QUESTION)
        server.shutdown()


@pytest.fixture
def page(address: str, chromium: Browser) -> Iterator[Page]:
    """The page of the question, which may log no error and ask nobody else."""
    with watched(chromium) as page:
        page.goto(address)
        yield page


def standing(course: Course, trainee: str) -> Standing:
    return standings(course, UNIT, f"90-{QUESTION}")[trainee]


def test_a_class_is_marked_by_keys_alone(page: Page, course: Course, screens: Path) -> None:
    expect(page.locator("#progress")).to_have_text("0 of 4 marked")
    page.screenshot(path=screens / "hand-marking.png", full_page=True)
    page.keyboard.press("1")
    page.keyboard.press("2")
    expect(page.locator("#a-t001 output")).to_have_text("3 of 4, not saved")
    page.keyboard.press("c")
    page.keyboard.type("jk12 Weigh it first.")
    page.keyboard.press("Escape")
    page.keyboard.press("Enter")
    expect(page.locator("#a-t001 .state")).to_have_text("3 of 4")
    expect(page.locator("#a-t002")).to_be_focused()
    page.keyboard.press("ArrowDown")
    expect(page.locator("#a-t003")).to_be_focused()
    page.keyboard.press("3")
    page.keyboard.press("Enter")
    expect(page.locator("#a-t004")).to_be_focused()
    page.keyboard.press("k")
    page.keyboard.press("k")
    expect(page.locator("#a-t002")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("#progress")).to_have_text("3 of 4 marked")
    first, second, third, last = (standing(course, f"t00{number}") for number in range(1, 5))
    assert (first.points, first.comment) == (3.0, "jk12 Weigh it first.")
    assert (second.points, third.points, last.points) == (0.0, 1.0, None)
    page.reload()
    expect(page.locator("#a-t004")).to_be_focused()
    page.screenshot(path=screens / "hand-marking-later.png", full_page=True)
    assert page.locator("#a-t001 input:checked").count() == 2


def test_nothing_of_a_trainees_runs_and_all_of_it_is_shown(page: Page) -> None:
    first = page.locator("#a-t001 .written")
    assert page.evaluate("window.hit") is None
    expect(first).to_contain_text("<script>window.hit = true</script>")
    expect(first).to_contain_text("☑ weighed")
    assert first.locator("math").count() == 2
    assert first.locator("img").evaluate("(picture) => picture.naturalWidth") == 1


def test_what_could_not_be_saved_is_said_and_kept(
    address: str, chromium: Browser, course: Course, runner: Runner
) -> None:
    page = chromium.new_page()
    page.goto(address)
    answer(course, "t004", "Level, and more.")
    mark(course, runner)
    page.locator("#a-t004").focus()
    page.keyboard.press("1")
    page.keyboard.press("Enter")
    expect(page.locator("#a-t004 output")).to_contain_text("Not saved: answer of t004 must be")
    expect(page.locator("#a-t004 input").first).to_be_checked()
    assert standing(course, "t004").points is None
    page.close()


def test_the_page_can_be_used_by_everybody(page: Page) -> None:
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
