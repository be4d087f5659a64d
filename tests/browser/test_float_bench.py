"""The float bench as its users meet it: in JupyterLab, by keyboard, and when the bowl starves."""

import re
import shutil
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest
from fuelcircuits.benches.float_bowl.bench import FloatBowlBench
from fuelcircuits.benches.frame.drawing import SET, fill, rules
from fuelcircuits.cards import read_rig
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.lab import Lab, notebook
from tests.browser.patience import looks
from tests.browser.readable import amiss
from tests.browser.watch import watched
from tests.places import RIGS

pytestmark = pytest.mark.browser

CARD = RIGS / "plover.toml"
CELL = """from fuelcircuits.benches.float_bowl.bench import FloatBowlBench
from fuelcircuits.cards import read_rig

bench = FloatBowlBench(read_rig("plover.toml"))
bench"""
NUMBER = re.compile(r"-?\d+\.?\d*")
SHAPES = """(svg) => [...svg.querySelectorAll('[data-set]')].map((part) =>
    part.dataset.set.split(';').map((rule) => part.getAttribute(rule.split('=')[0].trim())))"""


def open_bench(lab: Lab, page: Page) -> Locator:
    """Run a notebook with the bench and return the bench."""
    shutil.copy(CARD, lab.root / CARD.name)
    notebook(lab.root / "bench.ipynb", [CELL])
    lab.run(page, "bench.ipynb")
    bench = page.locator(".fc-bench")
    expect(bench.locator(".fc-chart .lead[d]").first).to_be_attached()
    bench.scroll_into_view_if_needed()
    return bench


def settle(bench: Locator) -> None:
    """Wait until the drawing has stopped gliding."""
    last, still = None, 0
    for _ in looks(bench.page, 120):
        now = bench.locator("svg.fc-svg").evaluate(SHAPES)
        still = still + 1 if now == last else 0
        if still == 4:  # on a busy machine it may rest before it has begun
            return
        last = now
    raise AssertionError("drawing must come to rest, but it still moves")


@pytest.fixture(scope="module")
def opened(lab_server: Lab, chromium: Browser) -> Iterator[Locator]:
    """The bench in a notebook, opened once; its page may log no error and ask nobody else."""
    with watched(chromium) as page:
        yield open_bench(lab_server, page)
    lab_server.end_sessions()


@pytest.fixture
def bench(opened: Locator) -> Locator:
    """The bench as it stood when it was opened."""
    pin = opened.get_by_role("button", name="Pin")
    if pin.get_attribute("aria-pressed") == "true":
        pin.click()
    opened.get_by_label("SI", exact=True).press("Space")
    opened.get_by_role("button", name="Reset", exact=True).click()
    expect(opened.get_by_label("Fuel drawn, in g/s")).to_have_value("3.0")
    return opened


def test_what_a_change_did_is_read_out(bench: Locator) -> None:
    bench.get_by_role("slider", name="Fuel drawn").press("PageUp")
    spoken = bench.get_by_role("status")
    expect(spoken).to_contain_text(re.compile("Fuel below gasket face: [0-9.]+ mm"))


def test_keys_boxes_reset_units_and_pin(bench: Locator) -> None:
    slider, box = (
        bench.get_by_label(name, exact=True) for name in ("Fuel drawn", "Fuel drawn, in g/s")
    )
    for key, value in (("Home", "0.0"), ("End", "12.0"), ("ArrowLeft", "11.9")):
        slider.press(key)
        expect(box).to_have_value(value)
    bench.get_by_role("button", name="Pin").click()
    box.fill("8")
    box.press("Enter")
    expect(slider).to_have_value("8")
    expect(bench.locator(".fc-readings thead")).to_contain_text("Before")
    expect(bench.locator("tr", has_text="Inlet flow")).to_contain_text("11.90 g/s")
    box.fill("99")
    box.press("Enter")
    expect(box).to_have_value("12.0")
    bench.get_by_label("US shop").check(force=True)
    expect(bench.locator("tr", has_text="Inlet flow")).to_contain_text("lb/h")
    bench.get_by_role("button", name="Reset Fuel drawn to 24 lb/h").click()
    expect(bench.get_by_label("Fuel drawn, in lb/h")).to_have_value("24")


@pytest.mark.parametrize("theme", ["Light", "Dark"])
def test_no_accessibility_violation_when_the_bowl_starves(
    bench: Locator, lab_server: Lab, theme: str, screens: Path
) -> None:
    lab_server.theme(bench.page, f"JupyterLab {theme}")
    expect(bench).to_have_attribute("data-theme", theme.lower())
    bench.get_by_label("Fuel pressure, in kPa").fill("4")
    bench.get_by_label("Fuel drawn, in g/s").fill("12")
    bench.get_by_label("Fuel drawn, in g/s").press("Enter")
    expect(bench.locator(".fc-verdict")).to_contain_text("starves")
    settle(bench)
    assert amiss(bench.page, ".fc-bench") == []
    bench.screenshot(path=screens / f"float-bench-starving-{theme.lower()}.png")


def test_browser_and_paper_place_the_drawing_alike(bench: Locator) -> None:
    model = FloatBowlBench(read_rig(CARD))
    paper = fill(model.drawing(), model.state().numbers)
    wanted = [
        [part.get(name) for name, _ in rules(part.get(SET, ""))]
        for part in paper.iter()
        if part.get(SET)
    ]
    for _ in looks(bench.page, 120):  # while it glides it is elsewhere
        shown = numbers_in(bench.locator("svg.fc-svg").evaluate(SHAPES))
        if shown == pytest.approx(numbers_in(wanted), abs=2e-3):
            break
    assert shown == pytest.approx(numbers_in(wanted), abs=2e-3)


def numbers_in(shapes: Iterable[Iterable[object]]) -> list[float]:
    """Return every number that places a shape, in order."""
    texts = [str(text) for shape in shapes for text in shape]
    return [float(each) for text in texts for each in NUMBER.findall(text)]
