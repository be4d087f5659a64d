"""The two forms of an owner, empty."""

from pathlib import Path

import pytest
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.day_form import DayForm
from fuelcircuits.own_car.form import CardForm
from fuelcircuits.own_car.rounds import Rounds


@pytest.fixture
def form(tmp_path: Path) -> CardForm:
    return CardForm(tmp_path / "my-car.toml")


@pytest.fixture
def day(tmp_path: Path) -> DayForm:
    return DayForm(Rounds(tmp_path / "days.toml"), OwnCard().rig, "2026-05-02")
