"""Every bench as its users meet it, in JupyterLab and as a page: keys, themes, sizes, errors."""

import re
import shutil
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from itertools import pairwise
from math import nan
from pathlib import Path
from typing import Any

import pytest
from fuelcircuits.benches import Bench, bench_class
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.page import page as page_of
from fuelcircuits.benches.frame.table import Table, tabulate
from fuelcircuits.benches.frame.time_bench import TimeBench
from playwright.sync_api import Browser, Locator, Page, expect

from tests.benches.opening import CARD, STEMS, bench, coarse
from tests.browser.lab import Lab, notebook
from tests.browser.patience import looks
from tests.browser.readable import amiss
from tests.browser.watch import watched

pytestmark = pytest.mark.browser

OPEN = """from fuelcircuits.benches import open_bench
from fuelcircuits.cards import read_rig
rig = read_rig("plover.toml")"""
TIMED = [stem for stem in STEMS if issubclass(bench_class(stem), TimeBench)]
SLIDE = """(slider, value) => {
    slider.value = value;
    slider.dispatchEvent(new Event('input'));
}"""
FITS = "document.querySelector('.fc-bench').getBoundingClientRect().right <= innerWidth"
STYLES = "(every) => every.map((one) => one.style.cssText)"
AWAITED = ".fc-chart[aria-busy=true]"
SEEN = """(bench) => {
    const shapes = [...bench.querySelectorAll('.fc-svg [data-set]')].map((part) =>
        part.dataset.set.split(';').map((rule) => {
            const name = rule.split('=')[0].trim();
            return name === 'text' ? part.textContent : part.getAttribute(name);
        }));
    const flows = [...bench.querySelectorAll('.fc-svg [data-march]')]
        .map((part) => part.style.visibility);
    return {
        drawing: JSON.stringify([shapes, flows]),
        plot: bench.querySelector('.fc-chart').innerHTML,
        readings: ['.fc-table', '.fc-gauges'].map((one) =>
            bench.querySelector(one).innerText).join(),
    };
}"""


@pytest.fixture(scope="module")
def shelf(lab_server: Lab, chromium: Browser) -> Iterator[Page]:
    """One notebook with every bench, with reduced motion, so that drawings jump and stand."""
    shutil.copy(CARD, lab_server.root / CARD.name)
    cells = [OPEN, *(f"open_bench({stem!r}, rig)" for stem in STEMS)]
    notebook(lab_server.root / "shelf.ipynb", cells)
    with watched(chromium, reduced_motion="reduce") as page:
        lab_server.run(page, "shelf.ipynb")
        expect(page.locator(".fc-bench")).to_have_count(len(STEMS))
        yield page
    lab_server.end_sessions()


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], tuple[Path, Table]]:
    """Return a function that writes the page of a bench, with a table of few places."""
    folder = tmp_path_factory.mktemp("pages")

    @cache
    def write(stem: str) -> tuple[Path, Table]:
        made, path = coarse(stem), folder / f"{stem}.html"
        table = tabulate(made)
        path.write_text(page_of(made, table=table), encoding="utf-8")
        return path, table

    return write


def on_shelf(shelf: Page, stem: str) -> Locator:
    found = shelf.locator(".fc-bench").nth(STEMS.index(stem))
    found.scroll_into_view_if_needed()
    return found


def settled(found: Locator) -> Mapping[str, str]:
    """Return what a user sees once it has stopped changing and nothing more is awaited."""
    last: Mapping[str, str] = {}
    for _ in looks(found.page, 60):
        now: Mapping[str, str] = found.evaluate(SEEN)
        if now == last and not found.locator(AWAITED).count():
            return now
        last = now
    raise AssertionError("bench must come to rest, but it still changes")


def press(control: Locator) -> None:
    """Move a control by keys alone: a slider half its way, a list by one, a box over."""
    kind = control.evaluate("(node) => node.type")
    control.focus()
    if kind == "range":
        up = control.evaluate("(node) => 2 * node.value < Number(node.min) + Number(node.max)")
        for key in ["Page", "Page", "Page", "Page", "Page", "Arrow"]:
            control.page.keyboard.press(f"{key}{'Up' if up else 'Down'}")
    elif kind == "checkbox":
        control.page.keyboard.press("Space")
    else:
        last = control.evaluate("(node) => node.selectedIndex === node.options.length - 1")
        control.page.keyboard.press("ArrowUp" if last else "ArrowDown")


def prepare(found: Locator, made: Bench, settings: Mapping[str, Any]) -> None:
    """Set what another control needs before it tells."""
    for name, value in settings.items():
        each = made.inputs()[name]
        control = found.locator(".fc-controls").get_by_label(each.label, exact=True)
        if isinstance(each, Control):
            control.evaluate(SLIDE, each.measure.metric.show(value))
        elif isinstance(each, Choice):
            control.select_option(label=each.options[value])
        else:
            control.set_checked(value)


def unmoved(found: Locator, control: Locator, keeps: tuple[str, ...]) -> list[str]:
    """Press `control`, and return what should have moved and has not after a while."""
    before = settled(found)
    press(control)
    for _ in looks(found.page, 80):
        now = found.evaluate(SEEN)
        still = [part for part in before if part not in keeps and now[part] == before[part]]
        if not still:
            break
    return still


def every_control(found: Locator, made: Bench, names: Iterable[str]) -> list[str]:
    """Return each control that left something as it was and does not say so."""
    if isinstance(made, TimeBench):  # when something has happened
        found.get_by_label("Time", exact=True).press("Home")
        for _ in range(4):
            found.page.keyboard.press("PageUp")
    faults = []
    for name in names:
        prepare(found, made, made.needs.get(name, {}))
        label = made.inputs()[name].label
        control = found.locator(".fc-controls").get_by_label(label, exact=True)
        if still := unmoved(found, control, made.keeps.get(name, ())):
            faults.append(f"{name} leaves {', '.join(still)} as it was")
        found.get_by_role("button", name="Reset", exact=True).click()
    return faults


def one_of_each_kind(made: Bench) -> list[str]:
    """Return the first slider, list and box of a bench, as many of them as it has."""
    kinds = {type(each): name for name, each in reversed(made.inputs().items())}
    return [*kinds.values()]


@pytest.mark.parametrize("stem", STEMS)
def test_a_control_of_each_kind_moves_what_it_should_by_keys(shelf: Page, stem: str) -> None:
    """What moves with each of them is shown on the live page, which draws with the same scripts."""
    made = bench(stem)
    assert every_control(on_shelf(shelf, stem), made, one_of_each_kind(made)) == []


@pytest.mark.parametrize("stem", STEMS)
def test_keys_of_a_control_reach_no_shortcut(shelf: Page, stem: str) -> None:
    cells = shelf.locator(".jp-CodeCell").count()
    on_shelf(shelf, stem).locator(".fc-controls :is(input, select)").first.focus()
    for key in ("a", "b", "x", "d", "d"):
        shelf.keyboard.press(key)
    assert shelf.locator(".jp-CodeCell").count() == cells


@pytest.mark.parametrize("stem", TIMED)
def test_steps_move_the_time_and_with_it_drawing_and_plot(shelf: Page, stem: str) -> None:
    found = on_shelf(shelf, stem)
    found.get_by_label("Time", exact=True).press("Home")
    before = settled(found)
    expect(found.get_by_role("button", name="Play")).to_be_hidden()  # reduced motion
    for _ in range(12):
        found.get_by_role("button", name="One step on").press("Enter")
    after = settled(found)
    assert [part for part in ("drawing", "plot") if after[part] == before[part]] == []
    found.get_by_label("Time", exact=True).press("Home")
    assert settled(found)["plot"] == before["plot"]


@pytest.mark.parametrize("stem", TIMED)
def test_run_plays_and_pauses(
    chromium: Browser, pages: Callable[[str], tuple[Path, Table]], stem: str
) -> None:
    clock = re.compile(r"[\d.]+ (s|min) of [\d.]+ (s|min)")
    with watched(chromium) as page:
        page.goto(pages(stem)[0].as_uri())
        found = page.locator(".fc-bench")
        time = found.get_by_label("Time", exact=True)
        found.get_by_role("button", name="Play").press("Enter")
        expect(time).not_to_have_value("0")
        expect(found.locator(".fc-clock")).to_have_text(clock)
        found.get_by_role("button", name="Pause").press("Enter")
        value = time.input_value()
        page.wait_for_timeout(300)
        assert time.input_value() == value


@pytest.mark.parametrize("theme", ["Light", "Dark"])
def test_no_accessibility_violation(
    shelf: Page, lab_server: Lab, theme: str, screens: Path
) -> None:
    lab_server.theme(shelf, f"JupyterLab {theme}")
    expect(shelf.locator(f".fc-bench[data-theme={theme.lower()}]")).to_have_count(len(STEMS))
    found = amiss(shelf, ".fc-bench")
    for stem in STEMS:
        on_shelf(shelf, stem).screenshot(path=screens / f"{stem}-{theme.lower()}.png")
    assert found == []


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (640, 360)])
def test_nothing_sticks_out_sideways_at_full_size_or_enlarged_twice(
    shelf: Page, width: int, height: int
) -> None:
    shelf.set_viewport_size({"width": width, "height": height})
    if width < 1000:
        shelf.evaluate("window.jupyterapp.commands.execute('application:toggle-left-area')")
    shelf.wait_for_function(FITS)
    wide = shelf.locator(".fc-bench").evaluate_all(
        "(every) => every.map((bench) => bench.scrollWidth - bench.clientWidth)"
    )
    assert dict(zip(STEMS, wide, strict=True)) == dict.fromkeys(STEMS, 0)


@pytest.mark.parametrize("stem", STEMS)
def test_nothing_flows_with_reduced_motion(shelf: Page, stem: str) -> None:
    found = on_shelf(shelf, stem)
    settled(found)
    flows = found.locator("[data-march]")
    before = flows.evaluate_all(STYLES)
    shelf.wait_for_timeout(100)
    assert flows.evaluate_all(STYLES) == before


@pytest.mark.parametrize("stem", STEMS)
def test_page_does_the_same_from_a_file(
    chromium: Browser, pages: Callable[[str], tuple[Path, Table]], stem: str, screens: Path
) -> None:
    path, table = pages(stem)
    with watched(chromium, reduced_motion="reduce") as page:
        page.goto(path.as_uri())
        found = page.locator(".fc-bench")
        assert every_control(found, bench(stem), on_page(bench(stem))) == []
        assert shown_off_the_table(found, table, stem) == []
        assert amiss(page) == []
        page.screenshot(path=screens / f"{stem}-page.png", full_page=True)
        page.set_viewport_size({"width": 400, "height": 800})
        assert page.evaluate("document.documentElement.scrollWidth") <= 400


def test_a_page_takes_a_comma_says_when_it_clamps_and_shares_its_setting(
    chromium: Browser, pages: Callable[[str], tuple[Path, Table]]
) -> None:
    path, _ = pages("float_bowl")
    with watched(chromium, reduced_motion="reduce") as page:
        page.goto(path.as_uri())
        box = page.get_by_role("spinbutton", name="Fuel pressure, in kPa")
        note = page.locator(".fc-control .fc-note").first
        said = []
        for text in ("500", "abc", "2,0"):
            box.fill(text)
            box.press("Enter")
            said.append(note.text_content())
        assert said[0] == "500 kPa is beyond the end: set to 60.0 kPa."
        assert said[1:] == ["“abc” is no number.", ""]
        expect(box).to_have_value("2.0")
        page.get_by_text("Share this setting").click()
        told = page.get_by_label("This setting as text")
        expect(told).not_to_have_value("")
        shared = told.input_value()
        page.get_by_text("US shop").click()
        page.goto(f"{path.as_uri()}#{shared}")
        page.reload()
        expect(page.get_by_role("spinbutton", name="Fuel pressure, in psi")).to_have_value("0.3")
        page.get_by_role("button", name="Two settings").click()
        both = page.get_by_role("spinbutton", name="Fuel pressure, in psi")
        assert [both.nth(at).input_value() for at in (0, 1)] == ["0.3", "0.3"]


def on_page(made: Bench) -> list[str]:
    """Return the controls of the page that tell with what else is there."""
    names = set(made.page_grid)
    return [name for name in made.page_grid if set(made.needs.get(name, ())) <= names]


def off_the_table(table: Table, stem: str) -> dict[str, float]:
    """Return settings between places, one a blending control, that need no settling on the way."""
    found: dict[str, float] = {}
    for axis in table.axes:
        if not axis.blends:
            continue
        for low, high in pairwise(axis.places):
            between = {axis.name: 0.6 * low + 0.4 * high}
            values = bench(stem).values() | found | between
            if table.settled(values) == values:
                found |= between
                break
    return found


def _first(value: Any) -> float:
    """Return a value as it is shown: of a run the first, and no number for none."""
    first = value[0] if isinstance(value, list) else value
    return nan if first is None else float(first)


def shown_off_the_table(found: Locator, table: Table, stem: str) -> list[str]:
    """Return each reading that page.js shows otherwise than table.py has it."""
    settings, made = off_the_table(table, stem), bench(stem)
    for name, value in settings.items():
        control = made.controls()[name]
        label = f"{control.label}, in {control.measure.metric.unit or 'figures'}"
        box = found.get_by_role("spinbutton", name=label, exact=True)
        box.fill(repr(control.measure.metric.show(value)))
        box.press("Enter")
    if isinstance(made, TimeBench):
        found.get_by_label("Time", exact=True).press("Home")
    settled(found)
    shown = found.locator(".fc-readings tbody td").all_inner_texts()
    told = table.at(made.values() | settings)["readings"]
    values = [_first(line["value"]) for line in told]
    lines = zip(made.state().readings, values, shown, strict=True)
    wanted = [(replace(line, value=value).text("SI"), text) for line, value, text in lines]
    return [f"{text} for {truth}" for truth, text in wanted if text != truth]
