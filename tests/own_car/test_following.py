"""Reports asked for in several threads at once, as a kernel does: none fails, none is mixed up."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier, Event
from typing import Any

import pytest
from fuelcircuits.errors import CardError
from fuelcircuits.own_car import following
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.day_form import DayForm
from fuelcircuits.own_car.following import Followed, Following
from fuelcircuits.own_car.rounds import Round, Rounds

WAIT = 20.0
"""Seconds after which a thread that was never let go on fails instead of hanging."""
MILD, HOT = (Round("2026-05-02", temperature=degrees) for degrees in (15.0, 35.0))


@pytest.fixture
def marches(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Stand-ins for the long work: each ends with the temperature it was for; those begun."""
    begun: list[str] = []

    def foreseeing(_rig: Any, _checks: Any, weather: Any, _fuel: Any, **_card: Any) -> Any:
        begun.append(words := f"{weather.temperature - 273.15:.0f} degrees")
        for at in range(200):
            yield at / 200
        return words

    monkeypatch.setattr(following, "foreseeing", foreseeing)
    monkeypatch.setattr(following, "ranked", lambda found, _known, _looked: found)
    monkeypatch.setattr(following, "whole", lambda report, _owned: report)
    return begun


def outcome(steps: Iterator[float | Followed]) -> Any:
    """Return the whole report that steps end with."""
    *_, last = steps
    assert isinstance(last, Followed)
    return last.report


def test_two_threads_take_turns_at_the_same_work(marches: list[str]) -> None:
    car, together = Following(), Barrier(4)

    def asked() -> Any:
        together.wait(WAIT)
        return outcome(car.steps(OwnCard(), MILD))

    with ThreadPoolExecutor(4) as pool:
        found = [one.result() for one in [pool.submit(asked) for _ in range(4)]]
    assert found == ["15 degrees"] * 4
    assert len(marches) == 1


def test_a_report_keeps_to_its_own_day_while_another_begins(marches: list[str]) -> None:
    car = Following()
    first = car.steps(OwnCard(), MILD)
    next(first)
    assert outcome(car.steps(OwnCard(), HOT)) == "35 degrees"
    assert outcome(first) == "15 degrees"


def test_what_is_amiss_is_told_to_everyone_who_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    def foreseeing(*_asked: Any, **_card: Any) -> Iterator[float]:
        yield 0.5
        raise CardError("the card must have an engine")

    monkeypatch.setattr(following, "foreseeing", foreseeing)
    car = Following()
    both = [car.steps(OwnCard(), MILD) for _ in range(2)]
    next(both[0])
    for steps in both:
        with pytest.raises(CardError, match="must have an engine"):
            list(steps)


def test_of_two_reports_in_two_threads_the_newer_is_shown(tmp_path: Path) -> None:
    held, go_on = Event(), Event()

    def steps(now: Round) -> Iterator[float | Followed]:
        if now.readings["idle-vacuum"] == "12 inHg":
            held.set()
            assert go_on.wait(WAIT)
        raise CardError(f"read with {now.readings['idle-vacuum']}")
        yield 1.0

    form = DayForm(Rounds(tmp_path / "days.toml"), OwnCard().rig, "2026-05-02", steps)
    assert form.report
    form.gauges["idle-vacuum"].box.value = "12"
    with ThreadPoolExecutor(2) as pool:
        older = pool.submit(form.report.button.click)
        assert held.wait(WAIT)
        pool.submit(setattr, form.gauges["idle-vacuum"].box, "value", "17.5").result()
        go_on.set()
        older.result()
    assert "Read with 17.5 inHg" in form.report.told.value


def test_a_day_that_cannot_be_used_takes_its_report_back(tmp_path: Path) -> None:
    form = DayForm(
        *(Rounds(tmp_path / "days.toml"), OwnCard().rig, "2026-05-02"), lambda _now: iter([0.5])
    )
    assert form.report
    with ThreadPoolExecutor(1) as pool:  # browser tests leave a loop running in the first thread
        pool.submit(form.report.button.click).result()
        assert "50 %" in form.report.told.value
        pool.submit(setattr, form.place["temperature"], "value", "warm").result()
    assert "Temperature of the air [°C] must be a number" in form.report.told.value
    assert form.report.found.value == ""
