"""The float unit as a trainee meets it: opened, run, tried on the bench, answered wrongly."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.lab import Lab
from tests.browser.watch import watched
from tests.places import COURSE_FOLDER

pytestmark = pytest.mark.browser
NAME = "02-float-bowl.ipynb"
RELEASE = COURSE_FOLDER / "release" / "02-float-bowl" / NAME
WRITE = """([name, source]) => {
    const cells = [...window.jupyterapp.shell.currentWidget.content.model.cells];
    const cell = cells.find((one) => one.sharedModel.getSource().startsWith(`${name} = ""`));
    cell.sharedModel.setSource(source);
}"""
TOLD = """(name) => [...window.jupyterapp.shell.currentWidget.content.model.cells]
    .filter((cell) => cell.sharedModel.getSource().includes(`"${name}"`))
    .flatMap((cell) => cell.outputs.toJSON())
    .map((output) => String(output.data?.["text/plain"]))
    .join(" ")"""


@pytest.fixture(scope="module")
def unit(lab_server: Lab, chromium: Browser) -> Iterator[Page]:
    """The released unit, opened in JupyterLab, every cell run without an error."""
    shutil.copy(RELEASE, lab_server.root / NAME)
    with watched(chromium) as page:
        lab_server.run(page, NAME)
        yield page
    lab_server.end_sessions()


def test_bench_answers_the_keyboard(unit: Page, screens: Path) -> None:
    slider = unit.get_by_label("Fuel drawn", exact=True).first  # a question has a bench of its own
    slider.scroll_into_view_if_needed()
    plot, verdict = unit.locator(".fc-plot").first, unit.locator(".fc-verdict").first
    image, words = plot.get_attribute("src"), verdict.inner_text()
    drawing = unit.locator(".fc-drawing svg").first.get_attribute("aria-label")
    slider.focus()
    slider.press("End")
    expect(verdict).not_to_have_text(words)
    expect(plot).not_to_have_attribute("src", str(image))
    expect(unit.locator(".fc-drawing svg").first).not_to_have_attribute("aria-label", str(drawing))
    unit.screenshot(path=screens / "unit-float-bench.png")


def test_wrong_answer_is_told_its_slip_and_the_right_one_is_right(
    unit: Page, lab_server: Lab
) -> None:
    force = "supply_pressure * 3.14159 * seat_bore**2"
    lift = "needle_force * needle_arm / float_arm + float_mass * Q(9.81, 'm/s**2')"
    unit.evaluate(WRITE, ["needle_force", f"needle_force = {force}"])
    unit.evaluate(WRITE, ["buoyancy", f"buoyancy = {lift}"])
    unit.evaluate(WRITE, ["pump_level_shift", 'pump_level_shift = Q(3, "N")'])
    lab_server.rerun(unit)
    assert "Four times too much" in unit.evaluate(TOLD, "needle-force")
    assert "your own value of needle-force" in unit.evaluate(TOLD, "buoyancy")
    assert "This is a force. Asked is a length" in unit.evaluate(TOLD, "pump-level-shift")


def test_the_bench_of_a_question_is_set_by_keys_and_its_text_is_marked(
    unit: Page, lab_server: Lab, screens: Path
) -> None:
    slider = unit.get_by_label("Float setting", exact=True).nth(1)
    slider.scroll_into_view_if_needed()
    slider.focus()
    for _ in range(4):
        slider.press("ArrowRight")
    unit.get_by_text("Share this setting, save a picture").nth(1).click()
    text = unit.get_by_label("This setting as text").nth(1).input_value()
    assert text == "float_setting=0.0075"  # from the 6.5 mm at which the job came in
    unit.evaluate(WRITE, ["set_the_float", f'set_the_float = "{text}"'])
    lab_server.rerun(unit)
    told = unit.evaluate(TOLD, "set-the-float")
    assert "0 of 3 points. The level is set high: Fuel below gasket face is 13.6 mm there." in told
    assert "“Float setting” is about 1 mm out." in told
    unit.get_by_text("The level is set high").scroll_into_view_if_needed()
    unit.screenshot(path=screens / "unit-set-the-float.png")
