"""The owner's notebook by keys alone: both forms, nothing lost on the way; and a bench's twin."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from fuelcircuits.own_car.card import open_card
from fuelcircuits.own_car.rounds import open_rounds
from playwright.sync_api import Browser, Page, expect

from tests.browser.lab import Lab, notebook
from tests.browser.watch import watched

pytestmark = pytest.mark.browser

CELLS = (
    'from fuelcircuits import OwnCar\ncar = OwnCar("keyed")\ncar.card_form()',
    'car.day_form("2026-05-02")',
    'from fuelcircuits.benches import open_bench\nopen_bench("gauges")',
)


@pytest.fixture(scope="module")
def opened(lab_server: Lab, chromium: Browser) -> Iterator[Page]:
    """A notebook with both forms and a bench."""
    notebook(lab_server.root / "keyed.ipynb", CELLS)
    with watched(chromium, reduced_motion="reduce") as page:
        lab_server.run(page, "keyed.ipynb")
        yield page


def test_the_card_is_filled_in_by_keys(opened: Page, lab_server: Lab, screens: Path) -> None:
    opened.get_by_label("Displacement, all cylinders").focus()
    opened.keyboard.type("1,6")
    for text in ("4", "850", "22"):
        opened.keyboard.press("Tab")
        opened.keyboard.type(text)
    expect(opened.get_by_text("Understood: 22 mm")).to_be_visible()
    barrels = opened.get_by_label("Barrels")
    barrels.focus()
    opened.keyboard.press("ArrowUp")
    opened.keyboard.press("b")  # would make a cell below, were it the notebook's
    expect(barrels).to_be_focused()
    expect(opened.get_by_text("Saved in keyed.toml: 4 of")).to_be_visible()
    card = open_card(lab_server.root / "keyed.toml")
    assert card.barrels == "one"
    assert card.entries["engine.displacement"] == "1.6 L"
    opened.screenshot(path=screens / "own-card.png")


def test_a_day_is_written_down_by_keys(opened: Page, lab_server: Lab, screens: Path) -> None:
    vacuum = opened.get_by_label("Manifold vacuum at warm idle [inHg]")
    vacuum.focus()
    opened.keyboard.type("61")
    expect(opened.get_by_text('is written with it: "61 kPa"')).to_be_visible()
    opened.keyboard.type(" kPa")
    expect(opened.get_by_text("Understood: 18.0 inHg")).to_be_visible()
    opened.get_by_label("Is the choke plate wide open on the warm engine?").focus()
    opened.keyboard.press("ArrowDown")
    expect(opened.get_by_text("1 reading, 1 look").first).to_be_visible()
    day = open_rounds(lab_server.root / "keyed-days.toml").every[0]
    assert (day.readings, day.seen) == ({"idle-vacuum": "61 kPa"}, {"choke-open-warm": "no"})
    opened.screenshot(path=screens / "own-day.png")


def test_the_forms_break_no_rule_of_accessibility(opened: Page) -> None:
    assert Axe().run(opened, context=".own-form").response["violations"] == []


def test_two_settings_of_a_bench_stand_beside_each_other(opened: Page, screens: Path) -> None:
    two = opened.get_by_role("button", name="Two settings")
    two.press("Enter")
    benches = opened.locator(".fc-bench")
    expect(benches).to_have_count(2)
    expect(benches.nth(1).locator(".fc-title")).to_contain_text("second setting")
    first, second = (benches.nth(at).get_by_role("spinbutton").first for at in (0, 1))
    before = first.input_value()
    second.fill("55")
    second.press("Enter")
    expect(second).not_to_have_value(before)
    expect(first).to_have_value(before)
    opened.screenshot(path=screens / "own-two.png")
    two.press("Enter")
    expect(benches).to_have_count(1)
