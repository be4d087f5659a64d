"""The form for observed work in JupyterLab, opened, filled in and written down by keys alone."""

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from fuelmarks.classroom.observed import FILE, read_observed
from fuelmarks.classroom.observed_form import form_notebook
from fuelmarks.course.notebook import write
from playwright.sync_api import Browser, Page, expect

from tests.browser.lab import CONNECTED, LOOK, Lab
from tests.browser.watch import watched
from tests.small_unit import new_course

pytestmark = pytest.mark.browser
OUTCOMES = """
[JOB-1]
title = "Works safely"
kind = "doing"

[JOB-2]
title = "Sets a carburettor on the car"
kind = "doing"
"""
SLOW = """
import time

[name] = [one for one in form.children if getattr(one, "description", "") == "watched by"]
name.observe(lambda _: time.sleep(0.1), "value")
form"""
"""Keeps Python busy with each letter of a name, so that later ones have to wait for it."""
AT_KEYS = "document.activeElement.closest('.jp-Notebook') !== null"
CELLS = "window.jupyterapp.shell.currentWidget.content.model.cells.length"


def tab_to(page: Page, name: str) -> None:
    """Press Tab until the field of that name has the keys."""
    field = page.get_by_label(name, exact=True)
    for _ in range(6):
        page.keyboard.press("Tab")
        if field.evaluate("(one) => one === document.activeElement"):
            return
    expect(field).to_be_focused(timeout=1)


def test_work_that_was_watched_is_written_down_by_keys(
    lab_server: Lab, chromium: Browser, screens: Path
) -> None:
    course = new_course(lab_server.root / "watched")
    (course.root / "outcomes.toml").write_text(OUTCOMES)
    book = form_notebook(course.root)
    code = book.cells[1].source.replace("\n\nobserved_form", "\n\nform = observed_form")
    book.cells[1].source = code + SLOW
    write(book, course.root / "observe.ipynb")
    with watched(chromium, reduced_motion="reduce") as page:
        page.goto(f"{lab_server.url}lab/tree/watched/observe.ipynb?reset")
        page.wait_for_function(CONNECTED, timeout=90_000, polling=LOOK)
        page.wait_for_function(AT_KEYS)
        page.keyboard.press("ArrowDown")
        page.keyboard.press("Control+Enter")
        expect(page.get_by_role("button", name="Write it down")).to_be_visible(timeout=90_000)
        tab_to(page, "trainee")
        page.keyboard.press("ArrowDown")
        tab_to(page, "outcome")
        page.keyboard.type("JOB-2")  # letters that JupyterLab would take for commands
        tab_to(page, "reading")
        page.keyboard.type("CO 2.8 %, 700 rpm")
        tab_to(page, "result")
        page.keyboard.press("ArrowDown")
        tab_to(page, "watched by")
        page.keyboard.type("R. Ventura")
        for _ in range(3):
            page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        expect(page.get_by_text("Written down as line 1.")).to_be_visible()
        page.keyboard.press("Enter")
        expect(page.get_by_text("Not written down: reading must say")).to_be_visible()
        page.screenshot(path=screens / "observed-form.png")
        assert page.evaluate(CELLS) == 2
        assert Axe().run(page, context=".jp-OutputArea").response["violations"] == []
    lab_server.end_sessions()
    (line,) = read_observed(course)
    seen = line.seen
    assert (seen.trainee, seen.outcome, seen.result) == ("t002", "JOB-2", "not yet")
    assert (seen.reading, seen.watched_by) == ("CO 2.8 %, 700 rpm", "R. Ventura")
    assert (course.root / FILE).read_text().count("\n") == 2
