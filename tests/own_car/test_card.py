"""An owner's card: written as the trade writes, saved as a file, read again, wrong in words."""

from dataclasses import replace
from pathlib import Path

import pytest
from fuelcircuits.errors import CardError, CircuitError, RangeError
from fuelcircuits.own_car.card import OwnCard, open_card
from fuelcircuits.own_car.card_check import card_check
from fuelcircuits.own_car.entries import ENTRIES, SECOND_ENTRIES, Matter, sketch
from fuelcircuits.own_car.entry_reading import entry_value, with_unit
from fuelcircuits.own_car.entry_text import entry_facts, entry_text, shop_unit
from fuelcircuits.own_car.jet_by_flow import bore_by_flow
from fuelcircuits.physics.circuits.high_speed import jet_coefficients, jet_flow

MATTERS = [*ENTRIES.values(), *SECOND_ENTRIES.values()]
WRITTEN = {
    "engine.displacement": "1600 cc",
    "engine.cylinders": "4",
    "engine.idle_speed": "850",
    "air_path.venturi_bore": "22",
    "high_speed.jet_bore": "#56",
    "low_speed.jet_bore": '0.020"',
    "low_speed.screw_turns": "2 1/2 turns",
    "float_bowl.fuel_pressure": "3,5 psi",
}


def written(barrels: str = "alike") -> OwnCard:
    card = OwnCard(barrels=barrels)
    for entry, text in WRITTEN.items():
        card = card.with_entry(entry, text)
    return card


# One inch is 25.4 mm; drill 56 is 0.0465 in (ANSI/ASME B94.11M).
@pytest.mark.parametrize(
    ("entry", "text", "value"),
    [
        ("high_speed.jet_bore", "1.35", 1.35e-3),
        ("high_speed.jet_bore", "1,35 mm", 1.35e-3),
        ("high_speed.jet_bore", ".053 in", 1.3462e-3),
        ("high_speed.jet_bore", '.053"', 1.3462e-3),
        ("high_speed.jet_bore", "#56", 1.1811e-3),
        ("high_speed.jet_bore", "No. 56 drill", 1.1811e-3),
        ("air_path.venturi_bore", "1-1/16 in", 26.9875e-3),
        ("air_path.venturi_bore", '1 1/16"', 26.9875e-3),
        ("air_path.venturi_bore", "15/16 inch", 23.8125e-3),
        ("engine.displacement", "97 cu in", 97 * 0.0254**3),
        ("engine.displacement", "97 cid", 97 * 0.0254**3),
        ("engine.displacement", "1,6", 1.6e-3),
        ("engine.idle_speed", "600 rpm", 62.8318),
        ("low_speed.screw_turns", "2 1/2 turns", 2.5),
        ("float_bowl.fuel_pressure", "0.25 bar", 25e3),
        ("second.air_path.opens_at", "45°", 0.785398),
    ],
)
def test_an_entry_is_read_as_the_trade_writes_it(entry: str, text: str, value: float) -> None:
    assert entry_value(entry, text) == pytest.approx(value, rel=1e-5)
    assert entry_value(entry, with_unit(entry, text)) == pytest.approx(value, rel=1e-5)


@pytest.mark.parametrize(
    ("entry", "text", "words"),
    [
        ("high_speed.jet_bore", "135", "bore of the main jet must be between 0.05 mm and 4 mm"),
        ("high_speed.jet_bore", "big", "bore of the main jet must be like 1.35 mm, 0.053 in"),
        ("high_speed.jet_bore", "3 psi", "must be like 1.35 mm"),
        ("high_speed.jet_bore", "", "must be like 1.35 mm"),
        ("engine.displacement", "1.6 mm", "must be like 1.6 L, 1600 cc or 97 cu in"),
        ("high_speed.jet_bore", "#120", "drill number must be between 1 and 97"),
    ],
)
def test_what_is_no_such_part_is_refused_in_words(entry: str, text: str, words: str) -> None:
    with pytest.raises(CircuitError) as refused:
        entry_value(entry, text)
    assert words in str(refused.value)


def test_a_saved_card_is_the_card_that_is_opened(tmp_path: Path) -> None:
    well = {"idle-vacuum": "19 inHg", "idle-mixture": "2.5 % CO"}
    card = written("late").with_entry("second.air_path.venturi_bore", "26")
    card = replace(card, ran_well=well)
    card.write(tmp_path / "my-car.toml")
    again = open_card(tmp_path / "my-car.toml")
    assert again == card
    assert again.rig == card.rig
    assert again.usual["idle-mixture"] == pytest.approx(0.945, abs=0.01)


def test_the_file_shows_what_is_assumed_as_comments(tmp_path: Path) -> None:
    written().write(tmp_path / "my-car.toml")
    lines = (tmp_path / "my-car.toml").read_text().splitlines()
    assert 'displacement = "1600 cc"  # volume swept by all cylinders together' in lines
    assert any(line.startswith("# throttle_bore = ") and "assumed" in line for line in lines)
    assert sum(" = " in line for line in lines) == len(written().asked()) + 2


def test_an_assumed_line_becomes_measured_when_its_sign_is_taken_away(tmp_path: Path) -> None:
    path = tmp_path / "my-car.toml"
    written().write(path)
    path.write_text(path.read_text().replace("# throttle_bore = ", "throttle_bore = "))
    assert "air_path.throttle_bore" in open_card(path).measured


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("barrels = 3", "barrels must be one of one, alike, late, got 3"),
        ('like = "heron"', "like must be one of plover, dunlin, got 'heron'"),
        ("[ran_well]\nidle = 3", "ran_well must have idle-vacuum"),
        ('[engine]\nnose = "3 mm"', "engine.nose must be a known entry"),
        ('[engine]\ndisplacement = "3 mm"', "volume swept by all cylinders together must be like"),
        ("engine = [", "card must be a readable TOML file"),
    ],
)
def test_a_card_that_is_wrong_says_where(tmp_path: Path, text: str, words: str) -> None:
    (tmp_path / "my-car.toml").write_text(text)
    with pytest.raises(CardError) as refused:
        open_card(tmp_path / "my-car.toml")
    assert words in str(refused.value)


def test_without_a_rod_the_jet_is_as_open_as_it_was_on_the_road() -> None:
    with_rod, bare = written().rig, written().with_entry("power.lean_step", "0").rig
    assert bare.power is None
    assert bare.high_speed.jet_bore == with_rod.high_speed.jet_bore  # it was measured
    assumed = OwnCard().with_entry("power.lean_step", "0").rig
    area = OwnCard().rig.high_speed.jet_bore ** 2 - OwnCard().rig.power.lean_step ** 2
    assert assumed.high_speed.jet_bore**2 == pytest.approx(area)


def test_barrels_are_one_alike_or_late() -> None:
    assert written(barrels="one").rig.air_path.barrels == 1
    assert written().rig.second is None
    late = written(barrels="late").rig
    assert late.second is not None
    assert late.second.air_path.opens_at == pytest.approx(0.7)


def test_an_entry_left_open_again_is_assumed_again() -> None:
    card = written().with_entry("high_speed.jet_bore", "")
    assert "high_speed.jet_bore" not in card.measured
    assert card.assumed("high_speed.jet_bore").endswith(" mm")


@pytest.mark.parametrize("matter", MATTERS, ids=lambda one: one.entry)
def test_every_entry_that_matters_is_drawn_described_and_possible(matter: Matter) -> None:
    facts, one = entry_facts(matter.entry), shop_unit(matter.entry)[1]
    assert facts["low"] <= matter.usual[0] * one < matter.usual[1] * one <= facts["high"]
    assert matter.does.endswith(".")
    assert matter.how.endswith(".")
    drawing = sketch(matter.drawing)
    assert "<title>" in drawing
    assert 'role="img"' in drawing


def test_ten_to_fifteen_entries_are_asked_of_like_barrels() -> None:
    assert 10 <= len(ENTRIES) <= 15


def test_an_unmeasured_card_is_a_teaching_rigs_and_usual() -> None:
    card = OwnCard()
    for name in card.asked():
        value = entry_value(name, card.assumed(name))
        assert ENTRIES[name].is_usual(value), (name, card.assumed(name))


# The inverse of the flow through an orifice.
@pytest.mark.parametrize("bore", [0.5e-3, 1.2e-3, 2.0e-3])
def test_a_jet_is_known_by_what_it_passes(bore: float) -> None:
    drop, area = 998.2 * 9.80665 * 0.5, 3.14159265 / 4 * bore**2
    flow = jet_flow(area, bore, jet_coefficients(bore, 2e-3), drop, 998.2, viscosity=1.0e-3)
    assert bore_by_flow(60 * flow / 998.2, 0.5) == pytest.approx(bore, rel=1e-6)


def test_what_no_jet_passes_is_refused() -> None:
    with pytest.raises(RangeError, match="water in a minute must be what a bore"):
        bore_by_flow(3e-6, 3.0)


def test_where_nothing_assumed_accounts_for_it_what_was_measured_is_doubted() -> None:
    card = OwnCard()
    wide = {"engine.displacement": "1.6 L", "air_path.venturi_bore": "30 mm"}
    for entry, text in {**wide, "high_speed.jet_bore": "1.0"}.items():
        card = card.with_entry(entry, text)
    assert "Look again at what you measured" in card_check(card)


def test_a_card_that_no_engine_runs_on_is_told_what_to_doubt() -> None:
    card = OwnCard()
    for entry, text in {"engine.displacement": "1.6 L", "low_speed.jet_bore": "0.80"}.items():
        card = card.with_entry(entry, text)
    said = card_check(card)
    assert "⚠" in said
    assert "Entries that you have not measured account for it" in said
    assert "turns off the seat as the screw is set: 1.67 instead of 2.75" in said
    assert "What would tell most if you measured it next" in said


def test_text_of_an_entry_is_in_the_shops_unit() -> None:
    assert entry_text("engine.displacement", 1.6e-3) == "1.6 L"
    assert entry_text("second.air_path.opens_at", 0.785398) == "45°"
