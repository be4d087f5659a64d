"""Questions of a page, answered in JSON."""

import json
from typing import Any

import pytest
from fuelcircuits.benches import Bench, open_bench
from fuelcircuits.benches.frame.state import State
from fuelcircuits.benches.gauges.bench import GaugesBench
from fuelcircuits.benches.live.desk import Desk, desk_in
from fuelcircuits.benches.live.package import package
from fuelcircuits.benches.live.release import cards_in
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError

from tests.benches.opening import STEMS
from tests.places import RIGS

CARDS = cards_in(RIGS)


def asked(desk: Desk, way: str, **facts: Any) -> Any:
    return json.loads(desk.ask(json.dumps({"ask": way, **facts})))


@pytest.fixture
def desk() -> Desk:
    return Desk(CARDS)


@pytest.mark.parametrize("stem", STEMS)
def test_a_bench_comes_with_all_that_it_shows_first(desk: Desk, stem: str) -> None:
    made = open_bench(stem, read_rig(RIGS / "plover.toml"))
    told = asked(desk, "bench", stem=stem, rig="plover", system="US")
    assert told["start"] == made.values()
    assert told["about"] == json.loads(json.dumps(made.about()))
    assert told["first"] == json.loads(json.dumps(made.answer({}, "US", made.seed)))


def test_answers_are_those_of_the_bench_in_two_stages(desk: Desk) -> None:
    made = open_bench("exhaust")
    setting = {"stem": "exhaust", "rig": "", "values": {"mixture": 1.02}, "system": "SI"}
    setting["values"] = {name: each.low for name, each in made.controls().items()}
    for curves in (False, True):
        told = asked(desk, "answer", curves=curves, **setting)
        assert told["whole"] is curves
        true = made.answer(setting["values"], "SI", made.seed, curves)  # type: ignore[arg-type]
        assert told == json.loads(json.dumps(true))


PIECEMEAL = ("pump", "hot_soak", "choke", "cold_start")


@pytest.mark.parametrize("stem", PIECEMEAL)
def test_curves_that_come_in_pieces_are_the_same_with_others_asked_in_between(stem: str) -> None:
    desk, made = Desk(CARDS), open_bench(stem, read_rig(RIGS / "plover.toml"))
    name, control = next(iter(made.controls().items()))
    values = [{name: 0.5 * (control.low + control.high)}, {name: control.high}]
    asks, told = 0, [dict[str, Any]()] * 2
    while not all(each.get("whole") for each in told):
        facts = {"stem": stem, "rig": "plover", "system": "SI", "curves": True, "within": 0}
        told = [asked(desk, "answer", values=each, **facts) for each in values]
        asks += 1
    assert asks > 2
    assert told == [json.loads(json.dumps(made.answer(each, "SI"))) for each in values]


def prepared(desk: Desk, stem: str, **facts: Any) -> int:
    """Have a step prepared until that is all, and return how many pieces it took."""
    facts = {"stem": stem, "rig": "plover", "system": "SI", "within": 0, **facts}
    pieces = 1
    while not asked(desk, "onward", **facts)["whole"]:
        pieces += 1
    return pieces


@pytest.mark.parametrize("stem", ["gauges", "low_speed", "pump"])
@pytest.mark.parametrize("up", [True, False])
def test_a_step_that_was_prepared_is_answered_as_any_other(
    stem: str, up: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk, made = Desk(CARDS), open_bench(stem, read_rig(RIGS / "plover.toml"))
    name, control = next(iter(made.controls().items()))
    here = 0.5 * (control.low + control.high)
    old = control.low if up else control.high
    onward = control.onward(old, here, "SI")
    assert onward is not None
    assert (onward > here) is up
    assert prepared(desk, stem, values={name: here}, moved=name, old=old) > 1
    kind = type(desk._bench(stem, "plover"))
    with monkeypatch.context() as held:
        for work in ("compute", "point", "pieces"):
            held.setattr(kind, work, None)  # what would ask for more work breaks
        facts = {"stem": stem, "rig": "plover", "system": "SI", "curves": False}
        told = asked(desk, "answer", values={name: onward}, **facts)
    fresh = made.answer({name: onward}, "SI", made.seed, told["whole"])
    assert told == json.loads(json.dumps(fresh))
    assert told["whole"] is (stem != "low_speed")


def test_beyond_the_end_of_a_slider_nothing_is_prepared(desk: Desk) -> None:
    end = open_bench("gauges").controls()["vacuum"].high
    assert prepared(desk, "gauges", values={"vacuum": end}, moved="vacuum", old=0.0) == 1


def test_what_the_model_refuses_is_prepared_once(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(_self: Bench, _values: Any, _system: Any) -> State:
        raise RangeError("vacuum must be less, got this")

    monkeypatch.setattr(GaugesBench, "compute", refused)
    assert prepared(desk, "gauges", values={}, moved="vacuum") == 1


def test_several_steps_are_prepared_one_a_piece(desk: Desk) -> None:
    assert prepared(desk, "gauges", values={}, moved="vacuum", steps=3) == 4


def test_the_first_rig_is_the_course_s_own() -> None:
    assert list(CARDS) == ["plover", "dunlin"]


def test_a_card_of_one_s_own_is_a_rig_from_then_on(desk: Desk) -> None:
    text = CARDS["plover"].replace('name = "plover"', 'name = "mine"')
    assert asked(desk, "card", text=text, file="mine.toml") == {"name": "mine"}
    first = asked(desk, "bench", stem="float_bowl", rig="own", system="SI")
    wider = text.replace('seat_bore = "2.3 mm"', 'seat_bore = "2.9 mm"')
    asked(desk, "card", text=wider, file="mine.toml")
    second = asked(desk, "bench", stem="float_bowl", rig="own", system="SI")
    assert second["start"]["seat_bore"] == pytest.approx(2.9e-3)
    assert first["start"]["seat_bore"] == pytest.approx(2.3e-3)
    assert first["first"]["readings"] != second["first"]["readings"]


def test_an_owner_s_card_is_scaled_to_a_whole_rig(desk: Desk) -> None:
    text = 'name = "my car"\nbarrels = "alike"\n[engine]\ndisplacement = "2.8 L"\n'
    text += '[float_bowl]\nseat_bore = "2.1 mm"\n'
    assert asked(desk, "card", text=text, file="my-car.toml") == {"name": "my car"}
    first = asked(desk, "bench", stem="float_bowl", rig="own", system="SI")
    assert first["start"]["seat_bore"] == pytest.approx(2.1e-3)
    wrong = asked(desk, "card", text=text.replace("2.1 mm", "2.1 kg"), file="my-car.toml")
    assert "must be like 1.35 mm" in wrong["refused"][0]


def test_a_card_is_refused_in_a_line_for_each_fault(desk: Desk) -> None:
    text = CARDS["plover"].replace('"2.3 mm"', '"2.3 kg"').replace('"46 mm"', '"46 m"')
    told = asked(desk, "card", text=text, file="mine.toml")
    assert [line.split(" must")[0] for line in told["refused"]] == [
        "mine.toml: float_bowl.depth",
        "mine.toml: float_bowl.seat_bore",
    ]


def test_a_bench_refuses_a_card_that_lacks_its_section(desk: Desk) -> None:
    assert "refused" not in asked(desk, "card", text='name = "bare"', file="bare.toml")
    told = asked(desk, "bench", stem="setting_up", rig="own", system="SI")
    assert told == {"refused": ["bare: float_bowl must be given for this bench, got nothing"]}


def test_a_package_holds_the_cards_of_its_rigs(tmp_path: Any) -> None:
    (tmp_path / "package.zip").write_bytes(package(CARDS))
    desk = desk_in(tmp_path / "package.zip")
    assert asked(desk, "bench", stem="float_bowl", rig="dunlin", system="SI")["start"]
