"""The report below the form of a day, which follows what is written."""

import asyncio
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.day_form import DayForm
from fuelcircuits.own_car.following import Followed
from fuelcircuits.own_car.own_car import OwnCar
from fuelcircuits.own_car.rounds import Round, Rounds

from tests.own_car.typing_in import typed


def apart(work: Callable[[], None]) -> None:
    """Do it in a thread of its own: browser tests leave a loop running in the first one."""
    with ThreadPoolExecutor(1) as pool:
        pool.submit(work).result()


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
