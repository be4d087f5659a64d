"""A press takes along what the fields hold in the browser, whatever has arrived of it before."""

from collections.abc import Iterator
from datetime import date
from typing import Any

import ipywidgets
import pytest
from fuelcircuits.own_car.press import Press

HELD = (
    {"value": "R. Ventura"},
    {"index": 1},
    {"value": {"year": 2026, "month": 10, "date": 29}},
    {"value": 3},
)
"""As the browser tells it; its months begin at 0."""


@pytest.fixture
def acted() -> list[list[Any]]:
    return []


@pytest.fixture
def press(acted: list[list[Any]]) -> Iterator[Press]:
    fields = [
        ipywidgets.Text(value="R."),
        ipywidgets.Dropdown(options=[("passed", "pass"), ("not yet", "not yet")]),
        ipywidgets.DatePicker(),
        ipywidgets.BoundedIntText(),
    ]
    made = Press(acted.append, fields, description="Write it down")
    yield made
    for one in (*fields, made):
        one.close()


def test_a_press_acts_on_what_the_browser_holds(press: Press, acted: list[list[Any]]) -> None:
    press._handle_custom_msg({"held": HELD}, [])
    held = ["R. Ventura", "not yet", date(2026, 11, 29), 3]
    assert acted == [held]
    assert [one.value for one in press.fields] == held


def test_letters_that_arrive_late_change_nothing_of_it(
    press: Press, acted: list[list[Any]]
) -> None:
    name = press.fields[0]
    name.observe(lambda _: setattr(name, "value", "R. Ven"), "value")
    press._handle_custom_msg({"held": HELD}, [])
    assert name.value == "R. Ven"
    assert acted[0][0] == "R. Ventura"


def test_a_click_in_python_acts_on_what_python_holds(press: Press, acted: list[list[Any]]) -> None:
    press.click()
    assert acted == [["R.", "pass", None, 0]]
