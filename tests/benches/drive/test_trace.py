"""A drive on paper: written, read, refused in words, and the same numbers every time."""

import json
from typing import Any

import pytest
from fuelcircuits.benches.drive.foot import Foot
from fuelcircuits.benches.drive.journeys import JOURNEYS, trace_of
from fuelcircuits.benches.drive.outing import HIDDEN, Outing, wrong_with
from fuelcircuits.benches.drive.trace import Trace, drive, packed, trace_in
from fuelcircuits.errors import RangeError
from fuelcircuits.faults import fitting

from tests.benches.drive.outings import CARDS, driven, journey, short


@pytest.mark.parametrize("rig", CARDS)
def test_the_same_trace_gives_the_same_numbers_to_the_bit(rig: str) -> None:
    trace = short(rig, fault="torn-pump-cup", altitude=1500.0)
    again = drive(trace_in(trace.text), CARDS[rig])
    assert again == driven(trace)
    assert len(again) == len(trace.feet) + 1


def test_another_drive_before_it_changes_nothing() -> None:
    trace = short()
    first = driven(trace)
    drive(short(altitude=2500.0)._replace(feet=(Foot(1.0, "low"),) * 5), CARDS["plover"])
    assert drive(trace, CARDS["plover"]) == first


@pytest.mark.parametrize("name", JOURNEYS)
def test_a_trace_is_read_as_it_was_written(name: str) -> None:
    trace = trace_of(JOURNEYS[name], "dunlin")
    assert trace_in(trace.text) == trace
    assert json.loads(trace.text)["outing"]["rig"] == "dunlin"


def test_equal_steps_are_told_once() -> None:
    feet = [Foot(0.0), Foot(0.0), Foot(0.1), Foot(0.0)]
    assert [row[:2] for row in packed(feet)] == [[2, 0.0], [1, 0.1], [1, 0.0]]


ROW = [1, 0.0, "neutral", 0.0, True, False]
WRONG: dict[str, tuple[Any, str]] = {
    "text": ("drive", "must be JSON"),
    "list": ([], 'must say "drive": 1'),
    "form": ({"drive": 2}, 'must say "drive": 1'),
    "step": ({"step": 0.04}, "step of a trace must be 0.02 s, got 0.04"),
    "feet": ({"feet": None}, "trace must have feet, got None"),
    "pedal": ({"feet": [[1, 1.2, *ROW[2:]]]}, "row 1 of feet: pedal must be between 0 and 1"),
    "nan": ({"feet": [[1, "0", *ROW[2:]]]}, "row 1 of feet: pedal must be a number, got '0'"),
    "gear": ({"feet": [ROW, [1, 0.0, "third", *ROW[3:]]]}, "row 2 of feet: gear must be one of"),
    "count": ({"feet": [[0, *ROW[1:]]]}, "count in row 1 of feet must be 1 to 90000, got 0"),
    "short": ({"feet": [[1, 0.0]]}, "foot must have 5 or 7 entries, got 1"),
    "long": ({"feet": [[90_000, *ROW[1:]], ROW]}, "at most 90000 steps"),
    "entry": ({"outing": {"rigg": "plover"}}, "outing must say rig, altitude"),
    "engine": ({"outing": {"engine": "tepid"}}, "engine must be one of warm, hot, cold, got tepid"),
    "height": ({"outing": {"altitude": 9000}}, "altitude must be between 0 and 3000 m, got 9000"),
    "clutch": ({"feet": [[*ROW, 1.2, 0.0]]}, "row 1 of feet: clutch must be between 0 and 1"),
    "brake": ({"feet": [[*ROW, 0.0, True]]}, "row 1 of feet: brake must be a number, got True"),
    "car": ({"outing": {"fault": "car-10"}}, "car must be one of car-1, car-2"),
    "fault": ({"outing": {"fault": "torn-pump-cop"}}, "did you mean torn-pump-cup?"),
    "draw": ({"outing": {"draw": 0.5}}, "draw must be a whole number, got 0.5"),
}


@pytest.mark.parametrize("case", WRONG)
def test_what_is_no_trace_is_refused_by_name(case: str) -> None:
    said, words = WRONG[case]
    whole = {"drive": 1, "step": 0.02, "outing": {}, "feet": [ROW]}
    text = said if isinstance(said, str) else json.dumps(said and {**whole, **said})
    with pytest.raises(RangeError) as refused:
        trace_in(text)
    assert words in str(refused.value)


def test_a_trace_of_one_rig_is_not_driven_on_another() -> None:
    with pytest.raises(RangeError, match="rig must be plover, which was driven, got dunlin"):
        drive(short(), CARDS["dunlin"])


def test_a_hidden_fault_follows_from_its_draw_and_is_not_written_down() -> None:
    outings = (Outing(fault=HIDDEN, draw=at) for at in range(200))
    drawn = {wrong_with(each, CARDS["plover"]).name for each in outings}
    assert len(drawn) > 0.9 * len(fitting(CARDS["plover"], around=True))
    trace = short(fault=HIDDEN, draw=7)
    name = wrong_with(trace.outing, CARDS["plover"]).name
    assert name not in trace.text
    assert driven(trace_in(trace.text)) == driven(trace)
    assert driven(trace) != driven(short())


def test_a_rig_without_the_part_cannot_have_its_fault() -> None:
    missing = sorted(set(fitting(CARDS["plover"])) ^ set(fitting(CARDS["dunlin"])))[0]
    rig = next(name for name in CARDS if missing not in fitting(CARDS[name]))
    with pytest.raises(RangeError, match="must"):
        driven(short(rig, fault=missing))


@pytest.mark.parametrize("rig", CARDS)
def test_fuel_by_circuit_adds_up_to_what_is_metered(rig: str) -> None:
    rows = driven(short(rig))
    assert all(row.fuel > -1e-9 for row in rows)
    moved = [row for row in rows if row.air > 1e-3 and row.running]
    assert {name for row in moved for name in ("screw", "slot", "main", "pump")
            if getattr(row, name) > 1e-5} == {"screw", "slot", "main", "pump"}  # fmt: skip


def test_a_part_of_a_journey_is_the_journey_s_beginning() -> None:
    whole, part = journey("floored", "plover"), journey("floored", "plover", seconds=2.0)
    assert whole[: len(part)] == part
    assert Trace(Outing(rig="plover"), ()) != trace_of(JOURNEYS["floored"], "plover")
