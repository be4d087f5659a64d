"""A car's own readings: ranked suspects, next tests, and entries of the card found from them."""

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import CHECKS, find
from fuelcircuits.diagnosis.shop_book import book_of
from fuelcircuits.diagnosis.shown import reading_text, taken
from fuelcircuits.diagnosis.subject import Subject, warmed
from fuelcircuits.errors import CardError, RangeError, UnitError
from fuelcircuits.own_car.fitting import PRIOR, fit
from fuelcircuits.own_car.leeway import with_entries
from fuelcircuits.own_car.report import diagnose
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.quantities.units import Q
from scipy.optimize import least_squares

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
AIR, PETROL = Weather.at(), Fuel()
SUSPECTS = ("blocked-idle-jet", "mixture-screw-in", "manifold-air-leak", "float-set-low")
FURTHER = ("idle-vacuum", "port-vacuum", "idle-mixture", "level-at-idle")


@pytest.mark.parametrize(
    ("name", "text", "value"),
    [
        ("idle-vacuum", "18.5 inHg", 18.5 * 3386.389),  # NIST SP 811, inHg at 0 degC
        ("idle-vacuum", "18,5 inHg", 18.5 * 3386.389),
        ("idle-vacuum", 18.5, 18.5 * 3386.389),
        ("shot", Q(1.2, "ml"), 1.2e-6),
        ("fuel-pressure", "34.5 kPa", 34.5e3),
        ("idle-mixture", 0.95, 0.95),
    ],
)
def test_readings_are_taken_as_people_write_them(name: str, text: object, value: float) -> None:
    assert taken(find(name), text) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize("text", ["18.5 mm", "high", Q(3.0, "g")])
def test_a_reading_of_another_kind_is_refused(text: object) -> None:
    with pytest.raises(UnitError, match="idle-vacuum"):
        taken(find("idle-vacuum"), text)


@pytest.mark.parametrize(
    ("name", "text", "message"),
    [
        (
            "idle-vacuum",
            "176 inHg",
            "(Manifold vacuum at warm idle) must be between 0 and 30 inHg, got 176 inHg",
        ),
        ("idle-vacuum", "65 MPa", "between 0 and 30 inHg, got 65 MPa"),
        ("idle-mixture", 14.7, "(Lambda at warm idle) must be between 0 and 6, got 14.7"),
        ("fuel-pressure", "-5 psi", "between 0 and 30 psi, got -5 psi"),
        ("shot", Q(1.2, "l"), "between 0 and 10 ml, got 1.2 l"),
    ],
)
def test_a_reading_that_no_gauge_shows_is_refused(name: str, text: object, message: str) -> None:
    with pytest.raises(RangeError) as refused:
        taken(find(name), text)
    assert str(refused.value).startswith(f"{name} (")
    assert str(refused.value).endswith(message)


@pytest.mark.parametrize("rig", ["plover", "dunlin"])
def test_every_fault_shows_what_can_be_believed(rig: str) -> None:
    book = book_of(rig)
    for at, check in enumerate(book.checks):
        unit = Q(1.0, check.unit or "1").to_base_units().magnitude
        shown = [row[at] / unit for rows in book.expected for row in rows]
        assert check.low <= min(shown) <= max(shown) <= check.high, check.name


@pytest.mark.parametrize(
    ("name", "near"),
    [("idel-vacuum", "idle-vacuum"), ("Fuel Pressure", "fuel-pressure"), ("shots", "shot")],
)
def test_a_misspelt_reading_is_told_the_nearest_name(name: str, near: str) -> None:
    with pytest.raises(
        RangeError, match=rf"check must be on the list \(did you mean {near}\?\), got"
    ):
        diagnose(PLOVER, {name: 1.0})


def test_a_reading_like_none_is_told_them_all() -> None:
    with pytest.raises(RangeError, match=r"check must be one of idle-vacuum, .*, got 'xyzzy'"):
        find("xyzzy")


def test_readings_are_shown_to_the_figures_that_mean_something() -> None:
    assert reading_text(find("idle-vacuum"), 64826.0) == "19.1 inHg"
    assert reading_text(find("shot"), 1.2135e-6) == "1.21 ml"


@pytest.fixture(scope="module")
def leaking() -> Subject:
    return Subject.with_fault(warmed(PLOVER, AIR, PETROL, by_vacuum=True), "manifold-air-leak", 0.8)


def test_the_fault_that_made_the_readings_comes_first(leaking: Subject) -> None:
    names = ("idle-vacuum", "idle-mixture", "port-vacuum")
    shown = {name: reading_text(find(name), find(name).read(leaking)) for name in names}
    found = diagnose(PLOVER, shown, suspects=SUSPECTS, further=FURTHER)
    assert found.suspicions[0].name == "manifold-air-leak"
    assert found.suspicions[0].severity == pytest.approx(0.8, abs=0.25)
    assert found.explained
    assert "**Manifold air leak** is likeliest" in found._repr_markdown_()


def test_checks_already_made_are_not_advised_again() -> None:
    found = diagnose(PLOVER, {"idle-mixture": 1.25}, suspects=SUSPECTS, further=FURTHER)
    assert {one.check.name for one in found.next_checks} == set(FURTHER) - {"idle-mixture"}


def test_a_card_without_an_engine_is_refused() -> None:
    with pytest.raises(CardError, match="x: card must have engine, air_path"):
        diagnose(Rig("x"), {"idle-mixture": 1.0})


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_every_check_has_words_minutes_and_an_uncertainty(check: Check) -> None:
    assert check.label
    assert check.minutes > 0
    assert check.uncertainty(1e-9) > 0


def read(rig: Rig, names: tuple[str, ...]) -> dict[str, float]:
    car = Subject(warmed(rig, AIR, PETROL, by_vacuum=True), rig)
    return {name: find(name).read(car) for name in names}


def test_an_unknown_jet_is_found_from_the_mixture() -> None:
    bore = 1.03 * PLOVER.high_speed.jet_bore
    readings = read(with_entries(PLOVER, {"high_speed.jet_bore": bore}), ("cruise-mixture",))
    found = fit(PLOVER, readings, ["high_speed.jet_bore"], AIR, PETROL)
    assert found.entries["high_speed.jet_bore"] == pytest.approx(bore, rel=5e-3)
    assert found.doubt["high_speed.jet_bore"] < 0.05 * bore


def test_the_fit_is_that_of_scipy() -> None:
    names, entry = ("cruise-mixture", "full-load-mixture"), "high_speed.jet_bore"
    readings = {"cruise-mixture": 1.0, "full-load-mixture": 0.85}
    old = PLOVER.high_speed.jet_bore

    def off(shift: np.ndarray) -> np.ndarray:
        now = read(with_entries(PLOVER, {entry: old * float(np.exp(shift[0]))}), names)
        parts = [
            (readings[name] - now[name]) / find(name).uncertainty(readings[name]) for name in names
        ]
        return np.array([*parts, shift[0] / PRIOR])

    best = old * np.exp(least_squares(off, [0.0], diff_step=1e-3, xtol=1e-6).x[0])
    found = fit(PLOVER, readings, [entry], AIR, PETROL)
    assert found.entries[entry] == pytest.approx(best, rel=1e-3)


@pytest.mark.parametrize("entry", ["high_speed.nose", "nose.bore", "jet_bore"])
def test_an_entry_that_is_not_on_the_card_is_refused(entry: str) -> None:
    with pytest.raises(RangeError, match=f"entry must be on the card, got {entry}"):
        with_entries(PLOVER, {entry: 1e-3})
    with pytest.raises(RangeError, match=f"entry must be on the card, got {entry}"):
        fit(PLOVER, {"cruise-mixture": 1.0}, [entry], AIR, PETROL)
