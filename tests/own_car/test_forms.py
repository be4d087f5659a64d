"""The forms as widgets: what is typed is understood, refused in words, and saved."""

import asyncio
import json
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import EVERY
from fuelcircuits.diagnosis.shown import taken
from fuelcircuits.errors import RangeError
from fuelcircuits.own_car.card import OwnCard, open_card
from fuelcircuits.own_car.day_form import DayForm
from fuelcircuits.own_car.entries import ENTRIES, SECOND_ENTRIES
from fuelcircuits.own_car.following import Followed
from fuelcircuits.own_car.form import CardForm
from fuelcircuits.own_car.own_car import OwnCar
from fuelcircuits.own_car.reading_told import in_own_unit, reading_label
from fuelcircuits.own_car.readings import ReadingError, asked
from fuelcircuits.own_car.rounds import Round, Rounds, open_rounds
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import ABSENT


@pytest.fixture
def form(tmp_path: Path) -> CardForm:
    return CardForm(tmp_path / "my-car.toml")


def apart(work: Callable[[], None]) -> None:
    """Do it in a thread of its own: browser tests leave a loop running in the first one."""
    with ThreadPoolExecutor(1) as pool:
        pool.submit(work).result()


def typed(form: CardForm, entry: str, text: str) -> str:
    """Type into a field and return what is said below it."""
    form.fields[entry].box.value = text
    return str(form.fields[entry].told.value)


def test_every_field_has_a_label_a_unit_and_a_sketch(form: CardForm) -> None:
    for name, matter in {**ENTRIES, **SECOND_ENTRIES}.items():
        field = form.fields[name]
        assert field.box.description.startswith(matter.label)
        assert not matter.unit or f"[{matter.unit}]" in field.box.description
        assert "<svg" in field.widget.children[1].value


def test_what_is_typed_is_saved_at_once(form: CardForm) -> None:
    assert "Understood: 22 mm" in typed(form, "air_path.venturi_bore", "22")
    assert open_card(form.path).entries == {"air_path.venturi_bore": "22 mm"}
    assert "1 of 14 measured" in form.saved.value or "1 of 15 measured" in form.saved.value


def test_what_cannot_be_understood_is_said_and_not_kept(form: CardForm) -> None:
    typed(form, "high_speed.jet_bore", "1.35")
    said = typed(form, "high_speed.jet_bore", "135")
    assert "must be between" in said
    assert "a number stamped on the jet: that is no size" in said
    assert open_card(form.path).entries == {}


def test_an_unusual_number_is_asked_about(form: CardForm) -> None:
    assert "which is unusual" in typed(form, "air_path.venturi_bore", "45")


def test_an_empty_field_says_what_is_assumed_and_that_follows_the_size(form: CardForm) -> None:
    before = form.fields["air_path.venturi_bore"].box.placeholder
    typed(form, "engine.displacement", "1.6 L")
    after = form.fields["air_path.venturi_bore"].box.placeholder
    assert before.startswith("assumed ")
    assert after != before
    assert "Not measured" in form.fields["air_path.venturi_bore"].told.value


def test_a_form_opens_on_the_card_that_lies_there(tmp_path: Path) -> None:
    OwnCard(barrels="late").with_entry("high_speed.jet_bore", "#56").write(tmp_path / "a.toml")
    form = CardForm(tmp_path / "a.toml")
    assert form.barrels.value == "late"
    assert form.fields["high_speed.jet_bore"].box.value == "#56"
    assert "Understood: 1.18 mm" in form.fields["high_speed.jet_bore"].told.value


def test_the_second_barrel_is_asked_for_where_it_differs(form: CardForm) -> None:
    assert form.second.layout.display == "none"
    form.barrels.value = "late"
    assert form.second.layout.display == ""
    typed(form, "second.air_path.opens_at", "45")
    assert open_card(form.path).rig.second is not None


def test_a_jet_is_worked_out_from_what_it_passes(form: CardForm) -> None:
    flow = form.by_flow
    flow.jet.value, flow.volume.value, flow.head.value = "low_speed.jet_bore", "40", "500"
    flow.button.click()
    assert "give or take 3 %" in flow.told.value
    assert 0.4 < float(open_card(form.path).entries["low_speed.jet_bore"].split()[0]) < 0.8
    flow.volume.value = "much"
    flow.button.click()
    assert "Water in one minute must be a number with a unit such as ml" in flow.told.value


def test_what_gauges_showed_when_it_ran_well_is_kept(form: CardForm) -> None:
    vacuum, told = form.ran_well["idle-vacuum"]
    vacuum.value = "19"
    assert open_card(form.path).ran_well == {"idle-vacuum": "19 inHg"}
    vacuum.value = "190"
    assert "must be between" in told.value
    assert open_card(form.path).ran_well == {}


def test_the_button_says_what_the_healthy_car_would_read(form: CardForm) -> None:
    form.check.click()
    assert "A card that a healthy engine could have." in form.checked.value
    assert "Lambda at warm idle" in form.checked.value


def test_the_form_is_shown_as_a_widget(form: CardForm) -> None:
    shown: Any = form._repr_mimebundle_()
    assert "application/vnd.jupyter.widget-view+json" in json.dumps(shown)
    assert "Run the cell above it" in shown["text/plain"]


@pytest.fixture
def day(tmp_path: Path) -> DayForm:
    return DayForm(Rounds(tmp_path / "days.toml"), OwnCard().rig, "2026-05-02")


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


def test_a_report_below_the_form_follows_what_is_written(tmp_path: Path) -> None:
    begun: list[Round] = []

    def steps(now: Round) -> Iterator[float | Followed]:
        begun.append(now)
        yield 0.5
        raise RangeError(f"{len(now.readings)} readings must fit some suspect")

    def at_the_car() -> None:
        form = DayForm(Rounds(tmp_path / "days.toml"), OwnCard().rig, "2026-05-02", steps)
        report = form.report
        assert report is not None
        form.gauges["idle-vacuum"].box.value = "17,5"
        assert begun == []
        report.button.click()
        assert [one.readings for one in begun] == [{"idle-vacuum": "17,5 inHg"}]
        assert "✗" in report.told.value
        assert "1 readings must fit some suspect" in report.told.value
        form.looks["shaft-wiggle"].value = "no"
        assert begun[-1].seen == {"shaft-wiggle": "no"}
        form.place["altitude"].value = "high"
        assert len(begun) == 2

    apart(at_the_car)


def test_a_report_follows_the_form_of_the_card_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: list[Mapping[str, str]] = []

    def steps(card: OwnCard, _now: Round, _owned: object) -> Iterator[float]:
        begun.append(card.entries)
        yield 0.5

    def at_the_car() -> None:
        car = OwnCar(str(tmp_path / "mine"))
        monkeypatch.setattr(car._following, "steps", steps)
        card, day = car.card_form(), car.day_form("2026-05-02")
        typed(card, "engine.displacement", "1.6 L")
        assert begun == [], "nobody has asked for a report yet"
        assert day.report
        day.report.button.click()
        typed(card, "engine.cylinders", "4")
        card.barrels.value = "one"

    apart(at_the_car)
    assert [sorted(one) for one in begun] == [
        ["engine.displacement"],
        *[["engine.cylinders", "engine.displacement"]] * 2,
    ]


def test_while_keys_are_pressed_the_report_waits_and_the_kernel_is_heard(tmp_path: Path) -> None:
    came: list[str] = []

    def steps(now: Round) -> Iterator[float | Followed]:
        for share in (0.1, 0.2):
            came.append(f"{now.readings['idle-vacuum']} {share}")
            yield share

    async def at_the_car() -> None:
        form = DayForm(Rounds(tmp_path / "days.toml"), OwnCard().rig, "2026-05-02", steps)
        form.gauges["idle-vacuum"].box.value = "12"
        assert form.report
        form.report.button.click()
        for text in ("1", "17", "17.5"):
            form.gauges["idle-vacuum"].box.value = text
        assert came == ["12 inHg 0.1"]
        while len(came) < 3:
            await asyncio.sleep(0.02)

    apart(lambda: asyncio.run(at_the_car()))
    assert came == ["12 inHg 0.1", "17.5 inHg 0.1", "17.5 inHg 0.2"]


def test_a_change_during_a_step_is_followed_and_not_lost(tmp_path: Path) -> None:
    came: list[str] = []
    day: DayForm

    def steps(now: Round) -> Iterator[float | Followed]:
        came.append(now.readings["idle-vacuum"])
        day.gauges["idle-vacuum"].box.value = "17.5"
        yield 0.1
        came.append(f"{now.readings['idle-vacuum']}, step two")

    day = DayForm(Rounds(tmp_path / "days.toml"), OwnCard().rig, "2026-05-02", steps)

    async def at_the_car() -> None:
        day.gauges["idle-vacuum"].box.value = "12"
        assert day.report
        day.report.button.click()
        while len(came) < 3:
            await asyncio.sleep(0.02)

    apart(lambda: asyncio.run(asyncio.wait_for(at_the_car(), 60)))
    assert came == ["12 inHg", "17.5 inHg", "17.5 inHg, step two"]
