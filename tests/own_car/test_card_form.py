"""The form of the card: what is typed, what is said of it, and what is kept."""

import json
from pathlib import Path
from typing import Any

from fuelcircuits.own_car.card import OwnCard, open_card
from fuelcircuits.own_car.entries import ENTRIES, SECOND_ENTRIES
from fuelcircuits.own_car.form import CardForm

from tests.own_car.typing_in import typed


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
