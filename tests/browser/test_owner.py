"""The owner's page in Chromium: a card filled in by keys, checked, kept, saved and opened again."""

import json
import re
from collections.abc import Callable
from html import unescape
from pathlib import Path

import pytest
from fuelcircuits.benches.live.desk import Desk
from fuelcircuits.benches.live.page import OWNER
from fuelcircuits.own_car.card import own_card
from fuelcircuits.own_car.entry_text import entry_text
from fuelcircuits.own_car.jet_by_flow import bore_by_flow
from fuelcircuits.own_car.rounds import open_rounds
from playwright.sync_api import Page, expect

from tests.browser.live_pages import PHONE
from tests.browser.readable import amiss
from tests.core import CARDS

pytestmark = pytest.mark.browser

WRITTEN = {
    "entries": {"engine.displacement": "1.6 L", "low_speed.jet_bore": "0,80"},
    "ran_well": {"idle-vacuum": "18"},
}
CHECK = {"ask": "owner", "do": "check", "written": WRITTEN}


def type_in(page: Page, entry: str, text: str) -> None:
    """Go to a field and type."""
    page.locator(f"#fc-own-{entry.replace('.', '-')}").focus()
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type(text)


def fill(page: Page) -> None:
    """Type the card in."""
    for kind in WRITTEN.values():
        for entry, text in kind.items():
            type_in(page, entry, text)
    expect(page.locator("#fc-own-engine-displacement-told")).to_contain_text("Understood: 1.6 L")
    expect(page.locator("#fc-own-idle-vacuum-told")).to_contain_text("Understood")


def plain(html: str) -> str:
    """Return the words of some HTML in one line."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def test_a_card_is_filled_in_by_keys_and_told_as_the_kernel_tells_it(
    opened: Callable[..., Page], tmp_path: Path, screens: Path
) -> None:
    page = opened(OWNER)
    expect(page.get_by_text("Nothing is sent anywhere").first).to_be_visible()
    fill(page)
    page.get_by_role("button", name="What would my healthy car read?").press("Enter")
    found = page.locator(".fc-found")
    expect(found).to_contain_text("measured it next")
    ours = json.loads(Desk(CARDS).ask(json.dumps(CHECK)))["check"]
    assert "No engine that runs well reads like this" in ours
    assert " ".join(found.inner_text().split()) == plain(ours)
    assert amiss(page) == []
    page.screenshot(path=screens / "owner-laptop.png", full_page=True)
    with page.expect_download() as download:
        page.get_by_role("button", name="Save card").press("Enter")
    path = tmp_path / "my-car.toml"
    download.value.save_as(path)
    card = own_card(path.read_text("utf-8"), path.name)
    assert card.known == pytest.approx(
        {"engine.displacement": 1.6e-3, "low_speed.jet_bore": 0.8e-3}, rel=1e-9
    )
    page.get_by_role("button", name="Empty card").press("Enter")
    expect(page.locator("#fc-own-engine-displacement-told")).to_contain_text("Not measured")
    page.get_by_label("Open card").set_input_files(path)
    expect(page.locator("#fc-own-low_speed-jet_bore-told")).to_contain_text("Understood: 0.8")


def test_readings_are_typed_by_keys_kept_saved_and_opened(
    opened: Callable[..., Page], tmp_path: Path, screens: Path
) -> None:
    page = opened(OWNER, size=PHONE)
    for name, text in {
        "idle-vacuum": "17,5",
        "fuel-pressure": "25 psi",
        "altitude": "1000 ft",
    }.items():
        page.locator(f"#fc-day-{name}").focus()
        page.keyboard.type(text)
    page.locator("#fc-day-shaft-wiggle").focus()
    page.keyboard.press("y")
    page.get_by_label("torch").press("Space")
    expect(page.locator("#fc-day-idle-vacuum-told")).to_contain_text("Understood: 17.5 inHg")
    expect(page.locator("#fc-day-fuel-pressure-told")).to_contain_text("must be between")
    expect(page.get_by_text("Left out, as it cannot be used")).to_be_visible()
    page.get_by_role("button", name="What is likely wrong?").press("Enter")
    expect(page.get_by_text("every fault would show")).to_be_visible()
    page.locator("#fc-day-cruise-mixture").focus()
    page.keyboard.type("13.5 AFR")
    expect(page.locator("#fc-day-cruise-mixture-told")).to_contain_text("Understood: 0.92")
    with page.expect_download() as download:
        page.get_by_role("button", name="Save readings").press("Enter")
    path = tmp_path / "my-car-days.toml"
    download.value.save_as(path)
    (day,) = open_rounds(path).every
    assert day.readings == {"idle-vacuum": "17,5 inHg", "cruise-mixture": "13.5 AFR"}
    assert day.altitude == pytest.approx(304.8)
    assert day.seen == {"shaft-wiggle": "yes"}
    assert amiss(page) == []
    page.reload()
    expect(page.locator("html[data-python=ready]")).to_be_attached()
    expect(page.locator("#fc-day-fuel-pressure")).to_have_value("25 psi")
    expect(page.get_by_label("torch")).to_be_checked()
    page.get_by_role("button", name="Empty day").press("Enter")
    expect(page.locator("#fc-day-idle-vacuum")).to_have_value("")
    page.get_by_label("Open readings").set_input_files(path)
    expect(page.locator("#fc-day-cruise-mixture")).to_have_value("13.5 AFR")
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    page.screenshot(path=screens / "owner-day-phone.png", full_page=True)


def test_on_a_phone_what_is_written_is_kept_and_what_is_wrong_is_told(
    opened: Callable[..., Page], screens: Path
) -> None:
    page = opened(OWNER, size=PHONE)
    fill(page)
    type_in(page, "high_speed.jet_bore", "13 mm")
    told = page.locator("#fc-own-high_speed-jet_bore-told")
    expect(told).to_contain_text("must be between")
    page.emulate_media(color_scheme="dark")
    page.locator("#fc-own-jet").select_option("low_speed.jet_bore")
    page.locator("#fc-own-volume").fill("60")
    page.locator("#fc-own-head").fill("500 mm")
    page.get_by_role("button", name="Work the bore out").press("Enter")
    bore = entry_text("low_speed.jet_bore", bore_by_flow(60e-6, 0.5))
    expect(page.locator("#fc-own-low_speed-jet_bore")).to_have_value(bore)
    page.reload()
    expect(page.locator("html[data-python=ready]")).to_be_attached()
    expect(page.locator("#fc-own-high_speed-jet_bore")).to_have_value("13 mm")
    expect(told).to_contain_text("must be between")
    expect(page.locator("#fc-own-idle-vacuum")).to_have_value("18")
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert amiss(page) == []
    page.screenshot(path=screens / "owner-phone.png", full_page=True)
