"""A day at an owner's car, asked of Python step by step, against the report of a notebook."""

import json
from typing import Any

import pytest
from fuelcircuits import faults
from fuelcircuits.benches.live.desk import Desk
from fuelcircuits.benches.live.release import cards_in
from fuelcircuits.own_car import following
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.foreseen import to_make
from fuelcircuits.own_car.page_html import page_html
from fuelcircuits.own_car.report import diagnose
from fuelcircuits.physics.matter.atmosphere import Weather

from tests.places import RIGS

CARDS = cards_in(RIGS)
FEW = ("idle-vacuum", "idle-mixture", "level-at-idle")
SOME = ("blocked-idle-jet", "manifold-air-leak")
WRITTEN = {"entries": {"engine.displacement": "1.6 L"}}
READ: dict[str, Any] = {
    "day": "2026-05-02",
    "altitude": "1000 ft",
    "temperature": "59 °F",
    "readings": {"idle-vacuum": "17,5", "idle-mixture": "2 % CO", "fuel-pressure": "25 psi"},
    "seen": {"shaft-wiggle": "no"},
    "owned": ["torch"],
}


@pytest.fixture
def desk(monkeypatch: pytest.MonkeyPatch) -> Desk:
    """A desk that thinks of few faults and few checks, so that it is quick."""
    monkeypatch.setattr(faults, "fitting", lambda rig: SOME)
    monkeypatch.setattr(following, "to_make", lambda rig, known: to_make(rig, known, FEW))
    return Desk(CARDS)


def asked(desk: Desk, do: str, read: Any = READ, **facts: Any) -> Any:
    question = {"ask": "day", "do": do, "written": WRITTEN, "read": read, **facts}
    return json.loads(desk.ask(json.dumps(question)))


def report(desk: Desk, read: Any = READ) -> list[Any]:
    """Return every answer on the way to a whole report."""
    answers = [asked(desk, "report", read)]
    while not answers[-1].get("whole"):
        answers.append(asked(desk, "report", read))
    return answers


def test_the_report_comes_step_by_step_and_is_the_notebook_s(desk: Desk) -> None:
    *shares, first, last = report(desk)
    done = [answer["share"] for answer in shares]
    assert done == sorted(done)
    assert (len(done), done[-1] < 1.0) == (1 + 1 + len(SOME), True)
    assert not first["whole"]
    card = OwnCard(entries=WRITTEN["entries"])
    ours = diagnose(
        card.rig,
        {"idle-vacuum": "17.5 inHg", "idle-mixture": "2 % CO"},
        weather=Weather.at(altitude=304.8, temperature=288.15),
        measured=card.measured,
        seen=READ["seen"],
        owned=READ["owned"],
        suspects=SOME,
        further=FEW,
    )
    assert last["report"] == page_html(repr(ours))
    heading = first["report"].split("</p>")[0]
    assert last["report"].startswith(heading)
    other = {**READ, "readings": {"idle-vacuum": "12"}}
    nearly, now = report(desk, other)
    assert not nearly["whole"]
    assert "12.0\u00a0inHg" in now["report"]
    assert "share" in asked(desk, "report", {**other, "altitude": "500"})


def test_every_reading_is_told_how_it_stands(desk: Desk) -> None:
    told = asked(desk, "stand")
    assert told["told"]["idle-vacuum"] == ["Understood: 17.5 inHg.", "good"]
    assert told["told"]["fuel-pressure"][1] == "wrong"
    assert "Left out, as it cannot be used: Fuel pressure at the inlet." in told["said"]
    assert told["said"].startswith("Written down on 2026-05-02: 2 readings, 1 look.")
    assert "level-at-idle" in told["fits"]
    assert "shot" not in told["told"]


def test_a_day_that_cannot_be_is_answered_in_a_sentence(desk: Desk) -> None:
    told = asked(desk, "stand", {**READ, "altitude": "high"})
    assert told["place"]["altitude"][1] == "wrong"
    assert told["said"].endswith("Height above the sea [m] must be a number, got 'high'")
    assert told["text"] == ""
    for _ in range(2):
        refused = asked(desk, "report", {**READ, "altitude": "20000"})["refused"]
        assert "altitude must be between" in refused[0]


def test_a_file_of_days_opens_as_it_was_saved(desk: Desk) -> None:
    text = asked(desk, "stand", {**READ, "ethanol": "10"})["text"]
    read = asked(desk, "open", text=text, file="days.toml")["read"]
    assert (read["altitude"], read["ethanol"], read["others"]) == ("304.8", "10", [])
    assert read["readings"] == {"idle-vacuum": "17,5 inHg", "idle-mixture": "2 % CO"}
    earlier = {name: one for name, one in read.items() if name != "others"}
    both = {**READ, "day": "2026-05-09", "others": [earlier | {"altitude": 300.0, "ethanol": 0.1}]}
    both["others"][0]["temperature"] = 15.0
    again = asked(desk, "open", text=asked(desk, "stand", both)["text"], file="days.toml")["read"]
    assert (again["day"], [one["day"] for one in again["others"]]) == ("2026-05-09", ["2026-05-02"])
    assert "refused" in asked(desk, "open", text="[[round", file="days.toml")
