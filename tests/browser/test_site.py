"""The website in Chromium: text with live benches, on a phone and a laptop, light and dark."""

import json
import re
import subprocess
import sys
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from zlib import compress

import pytest
from fuelmarks.course.course import Course
from fuelmarks.questions import draw, load, seed_of
from playwright.sync_api import Browser, BrowserContext, Page, expect

from course.site.units import READER
from tests.browser.live_pages import LAPTOP, PHONE
from tests.browser.readable import amiss
from tests.browser.static_site import StaticSite
from tests.browser.watch import watching
from tests.core import compiled_core
from tests.places import COURSE_FOLDER, TOP

pytestmark = pytest.mark.browser

UNSEEN = "globalThis.IntersectionObserver = class { observe() {} disconnect() {} }"
RESTING = "!document.getAnimations().some((one) => one.playState === 'running')"
COURSE = Course.at(COURSE_FOLDER)
UNITS = COURSE.units()
OTHERS = (
    *("index", "benches/index", "atlas/plover", "glossary", "plan", "own-car/own-car"),
    *("run/student", "search"),
)
PAGES = (*OTHERS, *(f"units/{unit}" for unit in UNITS))
LARGEST = 7e6
"""Bytes that a visitor fetches once, for all that there is."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of the whole site."""
    compiled_core()
    into = tmp_path_factory.mktemp("site") / "site"
    words = ["-m", "course.site.build", "--into", str(into), "--core", "build/core"]
    done = subprocess.run(
        [sys.executable, *words], cwd=TOP, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr[-2000:]
    return into


@pytest.fixture(scope="module")
def site(folder: Path) -> Iterator[StaticSite]:
    """The site on a plain web server."""
    served = StaticSite(folder)
    yield served
    served.stop()


@pytest.fixture(scope="module")
def reader(chromium: Browser) -> Iterator[BrowserContext]:
    """A browser for all pages, still as it was when the last is closed."""
    context = chromium.new_context(viewport=LAPTOP, reduced_motion="reduce")
    with watching(context):
        yield context
        context.close()


@pytest.fixture
def page(reader: BrowserContext) -> Iterator[Page]:
    opened = reader.new_page()
    yield opened
    opened.close()


@pytest.fixture
def still_page(page: Page) -> Page:
    """A page whose benches stand as they were drawn: Python does not come, as if none was seen."""
    page.add_init_script(UNSEEN)
    return page


@pytest.mark.parametrize("name", PAGES)
def test_page_is_readable_on_a_phone_and_a_laptop_light_and_dark(
    still_page: Page, site: StaticSite, name: str, screens: Path
) -> None:
    page = still_page
    page.set_viewport_size(PHONE)
    page.goto(site.at(f"{name}.html"))
    for size, scheme in ((PHONE, "light"), (LAPTOP, "dark")):
        page.set_viewport_size(size)
        page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
        expect(page.get_by_role("main")).to_be_visible()
        page.wait_for_function(RESTING)
        wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        assert (amiss(page), wide) == ([], 0)
        page.screenshot(path=screens / f"site-{name.replace('/', '-')}-{scheme}.png")


def test_a_bench_answers_in_its_place_in_the_text(page: Page, site: StaticSite) -> None:
    page.goto(site.at("units/04-low-speed.html"))
    bench = page.locator(".fc-live")
    bench.scroll_into_view_if_needed()
    expect(page.locator("html[data-python=ready]")).to_be_attached()
    before = bench.locator(".fc-readings").inner_text()
    bench.get_by_role("slider", name="Idle air bleed").press("PageDown")
    expect(bench.locator(".fc-readings")).not_to_have_text(before, use_inner_text=True)
    bench.get_by_role("button", name="Open alone").click()
    expect(page).to_have_url(re.compile(r"benches/low_speed\.html#rig=plover&air_bleed"))
    expect(page.get_by_role("slider", name="Idle air bleed")).to_be_visible()


def test_keys_lead_from_a_bench_to_a_part_in_the_atlas_and_back(
    page: Page, site: StaticSite, screens: Path
) -> None:
    page.goto(site.at("benches/float_bowl.html"))
    parts = page.get_by_role("navigation", name="Parts of this bench in the atlas")
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        page.wait_for_function(RESTING)
        assert amiss(page) == []
        page.screenshot(path=screens / f"bench-parts-{scheme}.png", full_page=True)
    parts.get_by_role("link", name="inlet needle", exact=True).press("Enter")
    expect(page).to_have_url(re.compile(r"atlas/plover\.html#part-needle$"))
    place = page.locator("#part-needle")
    expect(place).to_be_in_viewport()
    place.get_by_role("link", name="Float drop against inlet flow").press("Enter")
    expect(page).to_have_url(re.compile(r"benches/float_bowl\.html"))
    page.goto(site.at("units/02-float-bowl.html"))
    page.get_by_role("link", name="8.5 g").press("Enter")
    expect(page).to_have_url(re.compile(r"atlas/plover\.html#part-float$"))
    expect(page.locator("#part-float")).to_be_in_viewport()


FOCUSED = """() => {
    const { left, right, width } = document.activeElement.getBoundingClientRect();
    return [document.activeElement.className, width > 0 && right > 0 && left < innerWidth];
}"""


def test_on_a_phone_keys_open_the_menus_and_never_go_into_a_shut_one(
    page: Page, site: StaticSite
) -> None:
    page.set_viewport_size(PHONE)
    page.goto(site.at("units/05-off-idle.html"))
    link = page.get_by_role("link", name="09 · Choke and cold start").first
    expect(link).to_be_hidden()
    for _ in range(12):
        page.keyboard.press("Tab")
        name, seen = page.evaluate(FOCUSED)
        assert seen, f"focus must be on the screen, got {name}"
    menu = page.get_by_role("button", name="Toggle site navigation sidebar")
    menu.press("Space")
    expect(link).to_be_in_viewport()
    page.keyboard.press("Escape")
    expect(link).to_be_hidden()
    expect(menu).to_be_focused()
    page.keyboard.press("Enter")
    expect(menu).to_have_attribute("aria-expanded", "true")
    link.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Choke")


def test_words_are_found_by_the_search(page: Page, site: StaticSite) -> None:
    page.goto(site.at("search.html?q=economizer"))
    found = page.locator("#search-results li", has_text="04 · The low-speed circuit")
    expect(found.first).to_be_visible()


def test_pages_read_before_and_after_open_without_the_server(page: Page, site: StaticSite) -> None:
    page.goto(site.at("index.html"))
    expect(page.locator("#fc-offline")).to_contain_text("work without a network")
    site.stop()
    try:
        page.get_by_role("link", name="09 · Choke and cold start").first.click()
        expect(page.get_by_role("heading", level=1)).to_contain_text("Choke")
        page.goto(site.at("benches/choke.html"))
        expect(page.locator("html[data-python=ready]")).to_be_attached()
    finally:
        site.start()


def test_a_bench_on_paper_has_no_controls_of_the_page(page: Page, site: StaticSite) -> None:
    page.goto(site.at("units/04-low-speed.html"))
    page.emulate_media(media="print")
    expect(page.locator(".fc-bar").first).to_be_hidden()
    expect(page.locator(".fc-drawing").first).to_be_visible()


def test_all_that_a_visitor_fetches_is_small(folder: Path) -> None:
    files = [path.read_bytes() for path in folder.rglob("*") if path.is_file()]
    assert sum(min(len(compress(one)), len(one)) for one in files) < LARGEST
    assert sum(map(len, files)) < LARGEST + 3e6  # where the server does not pack its answers
    package = folder / "live" / "package.zip.packed"
    assert package.stat().st_size < 500e3


def test_every_file_of_the_site_is_kept_offline(folder: Path) -> None:
    listed = json.loads(
        (folder / "sw.js").read_text("utf-8").partition("RELEASE = ")[2].split(";")[0]
    )
    paths = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    assert set(listed["files"]) == paths - {"sw.js"}


def letters(text: str) -> str:
    """Return the letters and digits of a text, small, whatever stands between."""
    return re.sub(r"[^a-z0-9]", "", unescape(re.sub(r"<[^>]+>", "", text)).lower())


@pytest.mark.parametrize("unit", UNITS)
def test_questions_stand_on_a_page_and_nothing_that_answers_them(folder: Path, unit: str) -> None:
    text = letters((folder / "units" / f"{unit}.html").read_text("utf-8"))
    exercises = load(unit)
    sheet = draw(exercises, seed_of(READER, exercises.lot, READER))
    for one in exercises:
        assert letters(one.id) in text
        assert letters(sheet.ask(one.ask).replace("**", ""))[:40] in text
        told = filter(None, [one.why, *one.hints, *(slip.comment for slip in one.slips)])
        assert [words for words in told if letters(words) in text] == []
    assert "rubric" not in text
