"""Live pages in Chromium: moved by keys, on a phone and a laptop, with the server and without."""

import re
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.benches.opening import STEMS, bench
from tests.browser.live_pages import LAPTOP, PHONE, write_newer
from tests.browser.readable import amiss
from tests.browser.static_site import StaticSite
from tests.browser.test_benches import every_control, settled
from tests.browser.watch import watching
from tests.core import CARDS

pytestmark = pytest.mark.browser

MINE = CARDS["plover"].replace('name = "plover"', 'name = "my-car"')
SVG = "{http://www.w3.org/2000/svg}"


def shown(page: Page) -> Locator:
    return page.locator(".fc-bench").first


def slide(page: Page, label: str, key: str = "PageUp") -> None:
    """Press a key on a slider, and wait until the answer is whole."""
    before = settled(shown(page))["readings"]
    page.get_by_role("slider", name=label, exact=True).first.press(key)
    page.wait_for_function(
        "(old) => ['.fc-table', '.fc-gauges'].map((one) =>"
        " document.querySelector(one).innerText).join() !== old",
        arg=before,
    )
    expect(page.locator(".fc-chart").first).not_to_have_attribute("aria-busy", "true")


def both_in(page: Page) -> list[tuple[str, str]]:
    """Return what both settings on a page show."""
    every = [settled(page.locator(".fc-bench").nth(at)) for at in range(2)]
    return [(seen["drawing"], seen["readings"]) for seen in every]


def outer(page: Page) -> int:
    """Return by how much the page sticks out sideways."""
    wide: int = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    return wide


@pytest.mark.parametrize("stem", STEMS)
def test_every_control_moves_what_it_should_by_keys_on_a_laptop_and_a_phone(
    opened: Callable[..., Page], stem: str, screens: Path
) -> None:
    """The first control is moved on a phone in the dark, the others on a laptop in the light."""
    page, made = opened(stem, size=PHONE, scheme="dark"), bench(stem)
    expect(page.get_by_label("US shop")).to_be_checked(checked=made.system == "US")
    first, *others = made.inputs()
    for size, scheme, names in ((PHONE, "dark", [first]), (LAPTOP, "light", others)):
        page.set_viewport_size(size)
        page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
        expect(shown(page)).to_have_attribute("data-theme", scheme)
        assert every_control(shown(page), made, names) == []
        assert amiss(page) == []
        assert outer(page) <= 0
        page.screenshot(path=screens / f"{stem}-live-{scheme}.png", full_page=True)


def test_without_the_server_another_bench_opens_and_answers(
    opened: Callable[..., Page], live_pages: StaticSite
) -> None:
    live_pages.stop()
    try:
        slide(opened("float_bowl"), "Fuel pressure")
    finally:
        live_pages.start()


def test_a_newer_release_is_told_and_used_when_asked_for(
    opened: Callable[..., Page], live_pages: StaticSite
) -> None:
    write_newer(live_pages, "benches/air_path.html", "<title>", "<title>Newer: ")
    page = opened("gauges")
    offer = page.get_by_role("button", name="Use it now")
    expect(offer).to_be_visible(timeout=90_000)  # all files of the release come first
    old = page.context.new_page()
    old.goto(live_pages.at("benches/air_path.html"))
    assert not old.title().startswith("Newer")
    with page.expect_navigation():
        offer.click()
    old.reload()
    assert old.title().startswith("Newer")
    old.close()
    expect(page.locator("html[data-python=ready]")).to_be_attached()


def test_a_link_holds_rig_settings_pin_and_second_setting(opened: Callable[..., Page]) -> None:
    page = opened("float_bowl")
    page.get_by_label("Rig").select_option("dunlin")
    slide(page, "Fuel pressure")
    page.get_by_role("button", name="Pin").click()
    slide(page, "Fuel drawn")
    page.get_by_role("button", name="Two settings").click()
    expect(page.locator(".fc-readings thead").last).to_contain_text("Before")
    seen = both_in(page)
    expect(page).to_have_url(re.compile(r"#rig=dunlin&fuel_pressure=.*&pin=1.*&2\.rig=dunlin"))
    again = opened("float_bowl", f"#{page.url.partition('#')[2]}")
    expect(again.locator(".fc-readings thead")).to_contain_text(["Before", "Before"])
    assert both_in(again) == seen


@pytest.mark.parametrize(("name", "root"), [("gauges", ".fc-bench"), ("drive", ".fc-drive")])
def test_a_page_that_is_open_follows_the_device_into_the_dark(
    opened: Callable[..., Page], name: str, root: str
) -> None:
    page = opened(name)
    expect(page.locator(root)).to_have_attribute("data-theme", "light")
    page.emulate_media(color_scheme="dark")
    expect(page.locator(root)).to_have_attribute("data-theme", "dark")


def test_two_settings_move_together_if_they_are_to(opened: Callable[..., Page]) -> None:
    page = opened("float_bowl")
    page.get_by_role("button", name="Two settings").click()
    boxes = page.get_by_role("spinbutton", name="Seat bore, in mm")
    slide(page, "Seat bore")
    assert boxes.nth(0).input_value() != boxes.nth(1).input_value()
    page.get_by_label("Move both together").check()
    slide(page, "Seat bore")
    assert boxes.nth(0).input_value() == boxes.nth(1).input_value()
    assert amiss(page) == []


def test_units_and_rig_are_remembered_on_other_pages(opened: Callable[..., Page]) -> None:
    page = opened("float_bowl")
    page.get_by_text("US shop").click()
    page.get_by_label("Rig").select_option("dunlin")
    other = opened("low_speed")
    expect(other.get_by_label("US shop")).to_be_checked()
    expect(other.get_by_label("Rig")).to_have_value("dunlin")
    expect(other.locator(".fc-readings")).to_contain_text("inHg")


def test_a_card_of_your_own_goes_through_five_benches_on_a_phone(
    opened: Callable[..., Page], tmp_path: Path
) -> None:
    card = tmp_path / "my-car.toml"
    card.write_text(MINE.replace('seat_bore = "2.3 mm"', 'seat_bore = "0.114 in"'), "utf-8")
    page = opened("float_bowl", size=PHONE)
    page.get_by_label("Card file").set_input_files(card)
    expect(page.get_by_label("Rig")).to_have_value("own")
    expect(page.get_by_role("spinbutton", name="Seat bore, in mm")).to_have_value("2.90")
    for stem in ("low_speed", "off_idle", "high_speed", "bowl_vents"):
        page = opened(stem, size=PHONE)
        expect(page.get_by_label("Rig").locator("option:checked")).to_have_text(
            "my-car (your card)"
        )
        expect(page.locator(".fc-readings tbody tr").first).to_be_visible()
        label = next(iter(bench(stem).controls().values())).label
        slide(page, label)
        assert outer(page) <= 0


def test_a_card_that_cannot_be_used_is_told_line_by_line(
    opened: Callable[..., Page], tmp_path: Path
) -> None:
    card = tmp_path / "my-car.toml"
    card.write_text(MINE.replace('"2.3 mm"', '"23 mm"').replace('"46 mm"', '"46 g"'), "utf-8")
    page = opened("float_bowl")
    page.get_by_label("Card file").set_input_files(card)
    lines = page.get_by_role("alert").get_by_role("listitem")
    expect(lines).to_have_count(2)
    expect(lines.last).to_contain_text("my-car.toml: float_bowl.seat_bore must be between")
    expect(page.get_by_label("Rig")).to_have_value("plover")
    assert amiss(page) == []


@pytest.mark.parametrize(("name", "lacks"), [("float_bowl", "float_bowl"), ("drive", "engine")])
def test_where_a_kept_card_is_refused_that_is_said_and_another_rig_is_shown(
    opened: Callable[..., Page], tmp_path: Path, name: str, lacks: str
) -> None:
    card = tmp_path / "bare.toml"
    card.write_text('name = "bare"\n', "utf-8")
    page = opened("float_bowl")
    page.get_by_label("Card file").set_input_files(card)
    expect(page.get_by_role("alert")).to_contain_text("float_bowl must be given")
    page = opened(name, "#rig=own")
    expect(page.get_by_role("alert").first).to_contain_text(lacks)
    expect(page.get_by_label("Rig").first).to_have_value("plover")


def test_a_card_is_dropped_onto_the_bench(opened: Callable[..., Page]) -> None:
    page = opened("float_bowl")
    page.evaluate(
        """(text) => {
            const held = new DataTransfer();
            held.items.add(new File([text], 'my-car.toml'));
            const how = { dataTransfer: held, bubbles: true, cancelable: true };
            document.querySelector('.fc-drawing').dispatchEvent(new DragEvent('drop', how));
        }""",
        MINE,
    )
    expect(page.get_by_label("Rig")).to_have_value("own")


def test_a_picture_stands_alone(opened: Callable[..., Page], screens: Path) -> None:
    page = opened("float_bowl")
    slide(page, "Fuel drawn")
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save picture").click()
    path = screens / "float_bowl-saved.svg"
    saved.value.save_as(path)
    sheet = ElementTree.parse(path).getroot()
    words = "".join(sheet.itertext())
    for said in ("Float drop against inlet flow", "Fuel below gasket face", "Inlet flow [g/s]"):
        assert said in words
    assert "var(" not in path.read_text("utf-8")
    assert len(list(sheet.iter(f"{SVG}svg"))) > 3


def test_every_test_of_the_fault_page_are_made_and_the_fault_is_told(
    opened: Callable[..., Page],
) -> None:
    page = opened("diagnosis")
    boxes = page.locator(".fc-controls input[type=checkbox]")
    expect(boxes).to_have_count(15)
    for at in range(14):
        boxes.nth(at).press("Space")
    expect(page.locator(".fc-verdict")).to_contain_text("Only one suspect fits all readings")
    expect(page.locator(".fc-readings tbody")).not_to_contain_text("–")
    boxes.nth(14).press("Space")
    expect(page.locator(".fc-verdict")).to_contain_text("Cheapest proof")


def test_a_browser_that_cannot_says_so_and_shows_the_first_setting(
    chromium: Browser, live_pages: StaticSite
) -> None:
    context = chromium.new_context(viewport=PHONE)
    with watching(context):
        context.add_init_script("delete globalThis.DecompressionStream")
        page = context.new_page()
        page.goto(live_pages.at("benches/float_bowl.html"))
        expect(page.locator(".fc-news")).to_contain_text("cannot run here (it lacks unpacking)")
        expect(page.locator(".fc-readings tbody tr").first).to_be_visible()
        context.close()
