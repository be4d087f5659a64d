"""A report is sure of nothing that card and gauges do not allow, and says so when nothing fits."""

from collections.abc import Mapping
from math import pi

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Subject, warmed
from fuelcircuits.errors import CardError, RangeError
from fuelcircuits.own_car.leeway import with_entries
from fuelcircuits.own_car.report import Report, diagnose
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
AIR, PETROL = Weather.at(), Fuel()
TEN = {
    "engine.displacement": 1.6e-3,
    "engine.cylinders": 4.0,
    "engine.idle_speed": 850 * pi / 30,
    "engine.highest_speed": 6000 * pi / 30,
    "engine.compression_ratio": 8.8,
    "air_path.venturi_bore": 22e-3,
    "air_path.throttle_bore": 30e-3,
    "high_speed.jet_bore": 1.35e-3,
    "power.lean_step": 0.74e-3,
    "float_bowl.fuel_pressure": 3.5 * 6894.757,
}
SEVEN = (
    *("idle-vacuum", "port-vacuum", "idle-mixture", "cruise-mixture", "full-load-mixture"),
    *("fuel-pressure", "level-at-idle"),
)
SOME = (
    *("blocked-main-jet", "main-jet-too-small", "main-jet-too-large", "blocked-idle-jet"),
    *("manifold-air-leak", "soaked-float", "float-set-high", "dirt-in-needle-seat"),
    *("high-fuel-pressure", "torn-pump-cup", "choke-stuck-shut", "power-rod-stuck-up"),
)
HEALTHY_16 = {
    "idle-vacuum": "18.5 inHg",
    "idle-mixture": 0.95,
    "cruise-mixture": 1.02,
    "full-load-mixture": 0.88,
    "fuel-pressure": "3.5 psi",
    "level-at-idle": "15 mm",
}


def shown(name: str = "", severity: float = 0.0) -> dict[str, str]:
    """What the teaching rig's seven gauges show in SI."""
    car = Subject.with_fault(warmed(PLOVER, AIR, PETROL, by_vacuum=True), name, severity)
    units = {"idle-vacuum": "Pa", "port-vacuum": "Pa", "fuel-pressure": "Pa", "level-at-idle": "m"}
    return {one: f"{find(one).read(car)} {units.get(one, '')}" for one in SEVEN}


def sure(report: Report) -> Mapping[str, float]:
    return {one.name: one.probability for one in report.suspicions}


@pytest.fixture(scope="module")
def perfect() -> Report:
    return diagnose(PLOVER, shown())


def test_seven_perfect_readings_say_that_all_is_as_on_the_card(perfect: Report) -> None:
    assert perfect.healthy
    assert perfect.suspicions[0].name == "nothing-wrong"
    assert sure(perfect)["nothing-wrong"] > 0.5
    said = repr(perfect)
    assert said.startswith("**Nothing you have read speaks against the card.** A healthy")
    assert "doubtful" not in said


def test_what_seven_readings_cannot_see_is_said(perfect: Report) -> None:
    assert {"torn-pump-cup", "choke-heat-dead"} <= set(perfect.hidden)
    assert "blocked-main-jet" not in perfect.hidden
    assert "torn pump cup" in repr(perfect)
    assert "| torn pump cup |" not in repr(perfect)


def test_probabilities_come_with_a_band_that_holds_them(perfect: Report) -> None:
    for one in perfect.suspicions:
        band = perfect.bands[one.name]
        assert band.least <= one.probability <= band.most
    band = perfect.bands["nothing-wrong"]
    assert band.most - band.least > 0.1


@pytest.fixture(scope="module")
def small_engine() -> Report:
    """A healthy 1.6 l engine's readings, on a teaching rig's card with ten lines changed."""
    return diagnose(with_entries(PLOVER, TEN), HEALTHY_16, measured=TEN, suspects=SOME, further=())


def test_a_healthy_small_engine_is_not_accused_for_its_card(small_engine: Report) -> None:
    assert small_engine.healthy
    assert sure(small_engine)["blocked-main-jet"] < 0.1


def test_a_card_measured_wrong_is_doubted_before_any_part() -> None:
    wrong = {**TEN, "low_speed.economizer_bore": 1.35e-3}
    card = with_entries(PLOVER, wrong)
    found = diagnose(card, HEALTHY_16, measured=TEN, suspects=SOME, further=())
    said = repr(found)
    assert "**First the card.** As you entered it, your healthy car would show" in said
    assert "Lambda at warm idle 1.32, you read 0.95" in said
    named = [dial.entry for one in found.mendings for dial, _ in one.entries]
    assert {entry.partition(".")[0] for entry in named} == {"low_speed"}, "where the slip was"
    assert "Nothing you have read speaks against the card, once the card is mended" in said
    assert said.index("First the card") < said.index("| outcome |")


@pytest.fixture(scope="module")
def high_level() -> Report:
    """All as it should be, but for a level four millimetres too high."""
    return diagnose(PLOVER, {**shown(), "level-at-idle": "11 mm"}, suspects=SOME, further=())


def test_a_level_that_many_faults_explain_makes_none_of_them_certain(high_level: Report) -> None:
    assert not high_level.healthy
    assert max(sure(high_level).values()) < 0.9
    named = [dial.entry for one in high_level.corrections for dial, _ in one.entries]
    assert "float_bowl.float_setting" in named
    assert "**Or the card is wrong.**" in repr(high_level), "a part may be at fault as well"


def test_the_least_change_of_the_card_explains_the_reading(high_level: Report) -> None:
    (dial, new), *more = high_level.corrections[0].entries
    assert not more
    changed = with_entries(PLOVER, {dial.entry: new})
    car = Subject(warmed(changed, AIR, PETROL, by_vacuum=True), changed)
    assert find("level-at-idle").read(car) == pytest.approx(11e-3, abs=2e-3)


@pytest.fixture(scope="module")
def odd() -> Report:
    """All as it should be, but for a mixture that nothing makes."""
    return diagnose(PLOVER, {**shown(), "cruise-mixture": 1.8}, suspects=SOME, further=())


def test_readings_that_nothing_explains_get_no_percentages(odd: Report) -> None:
    said = repr(odd)
    assert not odd.explained
    assert "Nothing on the list explains these readings" in said
    assert "%" not in said.split("**Next:**")[0]
    assert "| least bad |" in said


def test_the_reading_that_is_wrong_is_named_and_to_be_read_again(odd: Report) -> None:
    assert odd.weighed.again() == "cruise-mixture"
    assert odd.weighed.misfits("nothing-wrong")[0].check == "cruise-mixture"
    assert "Read again first: “Lambda at cruise”" in repr(odd)


def test_a_fault_as_plain_as_day_is_still_found() -> None:
    found = diagnose(PLOVER, shown("manifold-air-leak", 0.9))
    first = [one.name for one in found.suspicions[:2]]
    assert "manifold-air-leak" in first
    assert not found.healthy


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("idle-mixture", 0, "between 0.50 and 3.00, which is all that a running engine shows"),
        ("idle-mixture", 14.7, 'written with its unit: "13.5 AFR"'),
        ("idle-mixture", "0.1 % CO", "carbon monoxide must be between 0.5 and 12 %"),
        ("idle-vacuum", "0 inHg", "must be between 2.1 inHg and 28.1 inHg"),
        ("fuel-pressure", "25 psi", "got 25 psi"),
        ("idle-vacuum", "eighteen", "must be a number with a unit such as inHg"),
        ("idle vacum", 18, "did you mean idle-vacuum"),
    ],
)
def test_nonsense_is_refused_in_words(name: str, text: object, words: str) -> None:
    with pytest.raises(RangeError) as refused:
        diagnose(PLOVER, {name: text})
    assert words in str(refused.value)


def test_everything_amiss_is_told_at_once() -> None:
    with pytest.raises(RangeError) as refused:
        diagnose(PLOVER, {"idle-mixture": 0, "fuel-pressure": "3 mm", "nose": 1})
    assert len(str(refused.value).splitlines()) == 3


@pytest.mark.parametrize(
    ("text", "ratio"),
    [("13.2 AFR", 13.2 / 14.6), ("13,2:1", 13.2 / 14.6), ("2 % CO", 0.95), ("CO 5 %", 0.88)],
)
def test_a_mixture_may_be_a_ratio_or_carbon_monoxide(text: str, ratio: float) -> None:
    # Two per cent of CO is about lambda 0.95, five about 0.88: common practice, no source.
    found = diagnose(PLOVER, {"idle-mixture": text}, suspects=SOME[:1], further=())
    assert found.readings["idle-mixture"] == pytest.approx(ratio, abs=0.012)


def test_no_check_promises_an_endless_number_of_bits() -> None:
    far = {**shown(), "idle-mixture": 0.5, "cruise-mixture": 3.0}
    found = diagnose(PLOVER, far)
    assert all(0.0 <= one.bits < 5.0 for one in found.next_checks)


def test_an_engine_that_cannot_idle_is_refused_in_words() -> None:
    with pytest.raises(CardError, match="must describe an engine that can idle"):
        diagnose(with_entries(PLOVER, {"air_path.throttle_leak": 1e-4}), {"idle-mixture": 1.0})
