"""A bench that answers in two stages: the state at once, its curves after, none lost on the way."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Locator, expect

from tests.browser.lab import Lab, notebook
from tests.browser.watch import watched
from tests.places import RIGS

pytestmark = pytest.mark.browser

CELL = """from fuelcircuits import ExhaustBench
ExhaustBench()"""
PUMP = f"""from fuelcircuits import PumpBench, read_rig
PumpBench(read_rig({str(RIGS / "plover.toml")!r}))"""
WRITE_DOWN = """(bench) => {
    const sheet = bench.querySelector('.fc-chart'), row = bench.querySelector('.fc-table');
    window.seen = [];
    new MutationObserver(() => window.seen.push({
        busy: sheet.getAttribute('aria-busy'),
        curve: sheet.querySelector('.fc-plot .curve.lead').getAttribute('d'),
        readings: row.innerText,
        verdict: bench.querySelector('.fc-verdict').innerText,
    })).observe(bench, { subtree: true, attributes: true, childList: true, characterData: true });
}"""


@pytest.fixture(scope="module")
def bench(lab_server: Lab, chromium: Browser) -> Iterator[Locator]:
    """The exhaust bench, whose gases at other mixtures take longer than all the rest."""
    notebook(lab_server.root / "stages.ipynb", [CELL])
    with watched(chromium, reduced_motion="reduce") as page:
        lab_server.run(page, "stages.ipynb")
        opened = page.locator(".fc-bench")
        expect(opened.locator(".fc-plot .lead[d]").first).to_be_attached()
        yield opened
    lab_server.end_sessions()


def test_old_curves_stay_until_the_new_come(bench: Locator) -> None:
    sheet, curve = bench.locator(".fc-chart"), bench.locator(".fc-plot .curve.lead")
    old_curve, old_readings = curve.get_attribute("d"), bench.locator(".fc-table").inner_text()
    assert old_curve
    bench.evaluate(WRITE_DOWN)
    bench.get_by_role("slider", name="False air at probe").press("PageUp")
    expect(curve).not_to_have_attribute("d", old_curve)
    expect(sheet).to_have_attribute("aria-busy", "false")
    seen = bench.page.evaluate("window.seen")
    between = [each for each in seen if each["busy"] == "true"]
    assert between
    assert {each["curve"] for each in between} == {old_curve}
    assert between[-1]["readings"] != old_readings


def test_keys_held_down_end_at_the_last_curve(bench: Locator) -> None:
    """What the curve is at the end, one key that leads there has told before."""
    slider = bench.get_by_role("slider", name="Spread of cylinders")
    curve = bench.locator(".fc-plot .curve.lead")
    first = curve.get_attribute("d") or ""
    slider.press("Home")
    expect(curve).not_to_have_attribute("d", first)
    last = curve.get_attribute("d") or ""
    bench.get_by_role("button", name="Reset Spread of cylinders").click()
    expect(curve).to_have_attribute("d", first)
    for _ in range(15):
        slider.press("ArrowLeft")
    expect(bench.get_by_label("Spread of cylinders, in %")).to_have_value("0.0")
    expect(curve).to_have_attribute("d", last)
    bench.page.wait_for_timeout(500)
    expect(curve).to_have_attribute("d", last)


def test_what_only_the_run_can_tell_is_left_open_until_it_is_there(
    lab_server: Lab, chromium: Browser
) -> None:
    notebook(lab_server.root / "run.ipynb", [PUMP])
    with watched(chromium, reduced_motion="reduce") as page:
        lab_server.run(page, "run.ipynb")
        pump = page.locator(".fc-bench")
        axis, verdict = pump.locator(".fc-plot .tick"), pump.locator(".fc-verdict")
        expect(axis.first).to_be_visible()
        pump.evaluate(WRITE_DOWN)
        # The verdict of before says lambda too: wait for a change, then for its end.
        pump.get_by_role("slider", name="Pump jet").press("PageDown")
        page.wait_for_function("window.seen.some(each => each.busy === 'true')")
        expect(verdict).to_contain_text("lambda")
        expect(pump.locator(".fc-chart")).to_have_attribute("aria-busy", "false")
        expect(pump.locator(".fc-table")).not_to_contain_text("…")
        between = [each for each in page.evaluate("window.seen") if each["busy"] == "true"]
        last = between[-1]
        assert last["verdict"] == "…"
        lines = [line.split("\t") for line in last["readings"].splitlines()[1:]]
        assert {label: value for label, value in lines if value != "…"}.keys() == {"Throttle angle"}
    lab_server.end_sessions()
