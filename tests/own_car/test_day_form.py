"""The form of a day: what is read and seen, and what is kept of it."""

from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest
from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import EVERY
from fuelcircuits.diagnosis.shown import taken
from fuelcircuits.own_car.card import OwnCard, open_card
from fuelcircuits.own_car.day_form import DayForm
from fuelcircuits.own_car.form import CardForm
from fuelcircuits.own_car.reading_told import in_own_unit, reading_label
from fuelcircuits.own_car.readings import ReadingError, asked
from fuelcircuits.own_car.rounds import Round, Rounds, open_rounds
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import ABSENT

from tests.own_car.typing_in import typed


def test_a_day_is_saved_as_it_is_typed(day: DayForm) -> None:
    day.gauges["idle-vacuum"].box.value = "17,5"
    day.gauges["idle-mixture"].box.value = "2.5 % CO"
    day.looks["shaft-wiggle"].value = "no"
    day.place["altitude"].value = "300"
    day.done["work"].value = "nothing yet"
    (kept,) = open_rounds(day.rounds.path).every
    assert kept.readings == {"idle-vacuum": "17,5 inHg", "idle-mixture": "2.5 % CO"}
    assert kept.seen == {"shaft-wiggle": "no"}
    assert (kept.altitude, kept.work) == (300.0, "nothing yet")
    assert "2 readings, 1 look." in day.saved.value


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("idle-mixture", "0", "must be between 0.50 and 3.00"),
        (
            "idle-vacuum",
            "17 mm",
            "Manifold vacuum at warm idle must be a number with a unit such as",
        ),
        (
            "fuel-pressure",
            "strong",
            "Fuel pressure at the inlet must be a number with a unit such as",
        ),
        ("cruise-mixture", "rich", "must be a number without a unit"),
    ],
)
def test_a_reading_that_cannot_be_is_answered_in_a_sentence_and_not_kept(
    day: DayForm, name: str, text: str, words: str
) -> None:
    day.gauges[name].box.value = text
    assert words in day.gauges[name].told.value
    assert open_rounds(day.rounds.path).every[0].readings == {}


def test_a_place_that_is_no_number_is_told_and_nothing_is_lost(day: DayForm) -> None:
    day.gauges["idle-vacuum"].box.value = "17.5"
    day.place["temperature"].value = "warm"
    assert "Temperature of the air [°C] must be a number" in day.saved.value
    assert open_rounds(day.rounds.path).every[0].readings == {"idle-vacuum": "17.5 inHg"}


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("idle-vacuum", "18", "Understood: 18.0 inHg."),  # no unit: that of the field
        ("idle-vacuum", "61", 'A gauge in another unit is written with it: "61 kPa".'),
        ("fuel-pressure", "35", '"35 kPa"'),
        ("idle-vacuum", "61 kPa", "Understood: 18.0 inHg."),
        ("idle-mixture", "14.7", '"13.5 AFR"'),
        ("level-at-idle", "0.6", "Understood: 0.6 mm."),
        ("level-at-idle", "90", "must be between 0 and 80 mm, got 90"),
        ("shot", "-1", "must be between"),
    ],
)
def test_every_number_is_answered_in_a_sentence(
    day: DayForm, name: str, text: str, words: str
) -> None:
    day.gauges[name].box.value = text
    assert words in unescape(day.gauges[name].told.value)


@pytest.mark.parametrize("check", asked(OwnCard().rig), ids=lambda check: check.name)
def test_every_reading_is_taken_in_the_unit_that_is_shown(check: Check) -> None:
    middle = min((check.low + check.high) / 2, check.low + 15)  # an engine that runs shows that
    kept = in_own_unit(check, f"{middle:g}", Fuel())
    shown = reading_label(check).partition("[")[2].rstrip("]")
    assert kept == f"{middle:g} {shown}".strip()
    assert not set("_^") & set(shown)
    assert taken(check, kept) == pytest.approx(taken(check, middle))


def test_a_difference_of_temperatures_is_taken_in_degrees_of_any_scale() -> None:
    warmer = EVERY["riser-heat"]
    assert taken(warmer, "36 °F") == pytest.approx(20.0)
    assert taken(warmer, "20 °C") == taken(warmer, "20 K") == pytest.approx(20.0)


def test_the_end_of_the_form_says_how_many_readings_were_left_out(day: DayForm) -> None:
    day.gauges["idle-vacuum"].box.value = "17.5"
    day.gauges["idle-mixture"].box.value = "0"
    assert "1 reading, no looks. Left out: 1 reading marked ✗ below." in day.saved.value


def test_an_air_fuel_ratio_hangs_on_what_is_in_the_tank(day: DayForm) -> None:
    day.gauges["idle-mixture"].box.value = "9.7 AFR"
    assert "Understood: 0.66." in day.gauges["idle-mixture"].told.value
    day.place["ethanol"].value = "85"
    assert "Understood: 0.99." in day.gauges["idle-mixture"].told.value  # of E85, 9.8 to 1


@pytest.mark.parametrize(
    ("box", "text", "kept"),
    [("altitude", "1000 ft", 304.8), ("temperature", "68 °F", 20.0), ("ethanol", "10 %", 0.1)],
)
def test_a_place_may_have_units_of_its_own(day: DayForm, box: str, text: str, kept: float) -> None:
    day.place[box].value = text
    assert getattr(open_rounds(day.rounds.path).every[0], box) == pytest.approx(kept)
    day.done["work"].value = "and the form goes on"
    assert "Saved" in day.saved.value


def test_an_empty_place_is_asked_for_and_not_taken_for_nought(day: DayForm) -> None:
    day.place["temperature"].value = ""
    assert "Temperature of the air [°C] must be a number" in day.saved.value


def test_two_forms_of_a_car_lose_nothing_of_each_other(day: DayForm) -> None:
    other = DayForm(Rounds(day.rounds.path), OwnCard().rig, "2026-05-09")
    day.done["work"].value = "jets cleaned"
    other.done["work"].value = "float set"
    day.done["parts"].value = "gasket"
    first, second = open_rounds(day.rounds.path).every
    assert (first.work, first.parts, second.work) == ("jets cleaned", "gasket", "float set")


def test_what_was_changed_elsewhere_is_not_written_over(day: DayForm, form: CardForm) -> None:
    day.done["work"].value = "jets cleaned"
    lies = day.rounds.path.read_text().replace("cleaned", "renewed")
    day.rounds.path.write_text(lies)
    day.done["parts"].value = "gasket"
    assert "was changed elsewhere" in day.saved.value
    assert day.rounds.path.read_text() == lies
    OwnCard().with_entry("high_speed.jet_bore", "1.4 mm").write(form.path)
    typed(form, "engine.displacement", "1.6 L")
    assert "was changed elsewhere" in form.saved.value
    assert open_card(form.path).entries == {"high_speed.jet_bore": "1.4 mm"}


def test_a_reading_that_the_card_has_no_part_for_is_kept(tmp_path: Path) -> None:
    rounds = Rounds(tmp_path / "days.toml")
    alone = replace(OwnCard().rig, vents=ABSENT, pump=ABSENT)
    rounds.with_round(Round("2026-05-02", readings={"shot": "1.2 ml"})).write()
    form = DayForm(open_rounds(rounds.path), alone, "2026-05-02")
    form.done["work"].value = "none"
    assert open_rounds(rounds.path).every[0].readings == {"shot": "1.2 ml"}


def test_a_day_that_is_none_is_refused_at_once(tmp_path: Path) -> None:
    with pytest.raises(ReadingError, match="day must be like 2026-05-02, got '2026-13-02'"):
        DayForm(Rounds(tmp_path / "days.toml"), OwnCard().rig, "2026-13-02")


def test_an_earlier_day_opens_again_and_a_new_one_begins_where_the_car_is(day: DayForm) -> None:
    day.place["altitude"].value = "300"
    day.gauges["idle-vacuum"].box.value = "17.5"
    rounds, rig = open_rounds(day.rounds.path), OwnCard().rig
    assert DayForm(rounds, rig, "2026-05-02").gauges["idle-vacuum"].box.value == "17.5 inHg"
    new = DayForm(rounds, rig, "2026-05-09")
    assert new.gauges["idle-vacuum"].box.value == ""
    assert new.place["altitude"].value == "300"
