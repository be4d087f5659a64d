"""The carburettor driven in Chromium: by keys, by finger, saved and loaded, in a page and a lab."""

import json
import shutil
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from fuelcircuits import drive, judged, read_rig
from fuelcircuits.benches.drive.trace import trace_in
from playwright.sync_api import Browser, Page, expect

from tests.browser.lab import Lab, notebook
from tests.browser.live_pages import PHONE
from tests.browser.static_site import StaticSite
from tests.browser.watch import watched
from tests.places import RIGS

pytestmark = pytest.mark.browser

TURNED = "(at) => parseFloat(document.querySelector('.fc-clock').textContent) >= at"


@pytest.fixture
def driven(opened: Callable[..., Page]) -> Callable[..., Page]:
    """Return a function that opens the drive's page and waits for Python."""
    return partial(opened, "drive")


def until(page: Page, time: float) -> None:
    """Wait until the drive has come to a time."""
    page.wait_for_function(TURNED, arg=time)


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).press("Enter")


def saved(page: Page, path: Path) -> str:
    """Save the drive, and return its text."""
    with page.expect_download() as download:
        press(page, "Save this drive")
    download.value.save_as(path)
    return path.read_text("utf-8")


def test_it_is_driven_saved_and_driven_again_by_keys_alone(
    driven: Callable[..., Page], tmp_path: Path, screens: Path
) -> None:
    page = driven()
    press(page, "Drive")
    pedal = page.get_by_role("slider", name="Pedal")
    clutch = page.get_by_role("button", name="Clutch", exact=True)
    pedal.press("c")
    expect(clutch).to_have_attribute("aria-pressed", "true")
    pedal.press("l")
    expect(page.get_by_role("radio", name="Low", exact=True)).to_be_checked()
    for key in ("PageUp", "ArrowRight", "Shift+ArrowRight"):
        pedal.press(key)
    pedal.press("c")
    expect(clutch).to_have_attribute("aria-pressed", "false")
    until(page, 1.0)
    expect(pedal).to_have_attribute("aria-valuetext", "11.1 %")
    press(page, "Pause")
    page.locator("summary").press("Enter")
    text = saved(page, tmp_path / "drive.json")
    expect(page.locator(".fc-clock")).to_have_text(f"{0.02 * len(trace_in(text).feet):.1f} s")
    feet = trace_in(text).feet
    assert feet[-1][:2] == (0.111, "low")
    last = drive(text, read_rig(RIGS / "plover.toml"))[-1]
    line = page.locator(".fc-strip tbody tr").first.locator("td").all_inner_texts()
    assert int(line[1]) == pytest.approx(last.speed * 60 / 6.283185307, abs=1)
    assert float(line[3]) == pytest.approx(last.mixture, abs=0.002)
    assert Axe().run(page).response["violations"] == []
    page.screenshot(path=screens / "drive-laptop.png", full_page=True)
    page.get_by_label("Load a drive").set_input_files(tmp_path / "drive.json")
    expect(page.locator(".fc-told")).to_contain_text("The loaded drive is over")
    assert json.loads(saved(page, tmp_path / "again.json")) == json.loads(text)


def test_a_set_journey_runs_beside_a_healthy_car_and_is_looked_back_on(
    driven: Callable[..., Page],
) -> None:
    page = driven("#rig=dunlin&journey=floored&fault=blocked-pump-jet&severity=0.5")
    expect(page.get_by_label("Rig")).to_have_value("dunlin")
    expect(page.get_by_label("Set journey")).to_have_value("floored")
    expect(page.get_by_label("How bad")).to_have_value("50")
    page.get_by_label("How bad").fill("100")
    press(page, "Watch it driven")
    expect(page.locator(".fc-legend")).to_contain_text("before")
    until(page, 2.6)
    press(page, "Pause")
    back = page.get_by_role("slider", name="Look back")
    back.press("Home")
    expect(page.locator(".fc-clock")).to_have_text("0.0 s")
    press(page, "One step")
    expect(back).to_have_value("1")
    expect(page.get_by_role("radio", name="Top")).to_be_checked()
    back.fill("65")
    expect(page.locator(".fc-clock")).to_have_text("2.6 s")
    with page.context.expect_page() as beside:
        page.locator(".fc-parts").get_by_role("button", name="pump").press("Enter")
    assert "pump.html#rig=dunlin&opened_from=0.03&opened=1&duration=0.2" in beside.value.url
    expect(beside.value.locator(".fc-player .fc-clock")).to_have_text("1.1 s of 4.0 s")
    expect(page.locator(".fc-told")).to_contain_text("The fault came along.")
    beside.value.close()


SEEN = """() => {
  const seen = (window.seen = { clock: 0, said: 0, picture: 0 });
  const watch = (place, name) => {
    const node = document.querySelector(place);
    const what = { attributes: true, childList: true, characterData: true, subtree: true };
    new MutationObserver(() => (seen[name] += 1)).observe(node, what);
  };
  watch(".fc-clock", "clock");
  watch(".fc-verdict", "said");
  watch(".fc-chart", "picture");
}"""


def test_a_drive_of_ones_own_is_judged_and_copied_and_stands_still_where_motion_is_reduced(
    driven: Callable[..., Page], screens: Path
) -> None:
    page = driven("#rig=plover&journey=pull-away")
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.emulate_media(reduced_motion="reduce")
    press(page, "Drive it yourself")
    expect(page.locator(".fc-told")).to_contain_text("it begins as you press Drive")
    press(page, "Drive")
    until(page, 0.2)
    page.evaluate(SEEN)
    page.wait_for_function("() => window.seen.clock > 3")
    seen = page.evaluate("window.seen")
    assert seen["picture"] <= seen["said"] + 1
    press(page, "Pause")
    press(page, "How did I drive?")
    told = page.locator(".fc-outset [role=status]")
    expect(told).to_contain_text("3 of 4 limits kept.")
    expect(told).to_contain_text("Not kept: The car comes to 30 km/h")
    page.screenshot(path=screens / "drive-judged.png", full_page=True)
    press(page, "Copy this drive")
    expect(told).to_contain_text("Copied")
    line = page.evaluate("navigator.clipboard.readText()")
    trace = trace_in(line)
    assert page.locator(".fc-clock").inner_text() == f"{0.02 * len(trace.feet):.1f} s"
    assert judged(line, read_rig(RIGS / "plover.toml"), "pull-away").share == 0.0


def test_a_fault_that_is_not_told_is_told_when_asked(driven: Callable[..., Page]) -> None:
    page = driven()
    page.get_by_label("Fault", exact=True).select_option("hidden")
    press(page, "Begin")
    expect(page.get_by_role("button", name="What is it?")).to_be_visible()
    assert "fault=" not in page.url
    press(page, "What is it?")
    expect(page.locator(".fc-outset [role=status]")).to_contain_text(": ")


def test_on_a_phone_the_pedal_is_held_by_a_finger_and_comes_back(
    driven: Callable[..., Page], screens: Path
) -> None:
    page = driven(size=PHONE, scheme="dark")
    press(page, "Drive")
    pedal = page.get_by_role("slider", name="Pedal")
    pedal.scroll_into_view_if_needed()
    box = pedal.bounding_box()
    assert box
    page.mouse.move(box["x"] + 0.5 * box["width"], box["y"] + 20)
    page.mouse.down()
    expect(pedal).to_have_attribute("aria-valuetext", "50.0 %")
    page.mouse.up()
    expect(pedal).to_have_attribute("aria-valuetext", "0.0 %")
    press(page, "Pause")
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert Axe().run(page).response["violations"] == []
    page.screenshot(path=screens / "drive-phone.png", full_page=True)


def test_without_the_server_it_still_begins(
    driven: Callable[..., Page], live_pages: StaticSite
) -> None:
    live_pages.stop()
    try:
        page = driven()
        press(page, "Drive")
        until(page, 0.4)
    finally:
        live_pages.start()


def test_in_a_notebook_the_kernel_drives_it(
    lab_server: Lab, chromium: Browser, screens: Path
) -> None:
    card = RIGS / "plover.toml"
    shutil.copy(card, lab_server.root / card.name)
    cells = [
        "from fuelcircuits import DriveBench, read_rig",
        'bench = DriveBench(read_rig("plover.toml"))\nbench',
    ]
    notebook(lab_server.root / "drive.ipynb", cells)
    with watched(chromium) as page:
        lab_server.run(page, "drive.ipynb")
        press(page, "Drive")
        page.get_by_role("slider", name="Pedal").press("PageUp")
        until(page, 1.0)
        press(page, "Pause")
        page.locator(".fc-parts").get_by_role("button", name="choke").press("Enter")
        expect(page.locator(".fc-told")).to_contain_text("bench = ChokeBench(rig)")
        page.screenshot(path=screens / "drive-lab.png")
    lab_server.end_sessions()
