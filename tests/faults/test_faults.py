"""The fault library: ranges, refusals, parts that a rig lacks, and faults in pairs."""

import re
from dataclasses import replace
from math import inf

import pytest
from fuelcircuits import faults
from fuelcircuits.errors import CircuitError, RangeError
from fuelcircuits.faults import FAULTS
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.plate import OPEN
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

from tests.benches.fault_bench import (
    AIR,
    DUNLIN,
    EQUIPPED,
    FULL,
    IDLING,
    OFF_IDLE,
    PETROL,
    PLOVER,
    STOP,
    WARM,
    stand_in,
)

SEVERITIES = st.floats(0, 1)
NAMES = st.sampled_from(sorted(FAULTS))
NAME_RULE_VALUE = r"^[\w .-]+ must .+, got "
BOTH_VENTS = (EQUIPPED, replace(EQUIPPED, vents=PLOVER.vents))


@pytest.mark.parametrize("name", FAULTS)
def test_severity_nought_is_the_healthy_rig(name: str) -> None:
    rig = stand_in(name)
    assert faults.apply(rig, name, 0.0) == rig
    assert faults.settings(rig, name, 0.0, healthy=WARM) == WARM


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_changes_its_parts_and_leaves_the_rig_as_it_was(name: str) -> None:
    rig, before = stand_in(name), stand_in(name)
    changed = faults.apply(rig, name) != rig
    assert changed != (faults.settings(rig, name) != WARM)
    assert rig == before


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_says_what_it_means_in_which_circuit(name: str) -> None:
    fault = faults.find(name)
    assert fault.name == name
    assert fault.circuit
    assert "at worst" in fault.meaning
    assert fault.meaning.endswith(".")


@given(NAMES, st.lists(SEVERITIES, min_size=1, max_size=3))
@examples(deadline=None, max_examples=60)
def test_a_fault_on_top_of_itself_stays_in_range_or_names_the_entry(
    name: str, severities: list[float]
) -> None:
    rig, told = stand_in(name), ""
    try:
        for severity in severities:
            rig = faults.apply(rig, name, severity)
    except RangeError as error:
        told = str(error)
    assert not told or re.search(NAME_RULE_VALUE, told)


@given(st.sampled_from(BOTH_VENTS), st.lists(st.tuples(NAMES, SEVERITIES), min_size=2, max_size=2))
@examples(deadline=None, max_examples=20)
def test_two_faults_at_once_give_an_answer_or_name_what_does_not_balance(
    rig: Rig, pair: list[tuple[str, float]]
) -> None:
    now, told, ratios = WARM, "", [1.0]
    try:
        for name, severity in pair:
            now = faults.settings(rig, name, severity, healthy=now)
            rig = faults.apply(rig, name, severity)
        places = (IDLING, OFF_IDLE, FULL)
        ratios = [network.solve(rig, AIR, PETROL, *at, settings=now).ratio for at in places]
    except CircuitError as error:
        told = str(error)
    assert not told or re.search(NAME_RULE_VALUE, told)
    assert all(0 < ratio < inf for ratio in ratios)


@given(
    st.sampled_from((DUNLIN, EQUIPPED, PLOVER)),
    st.tuples(NAMES, SEVERITIES),
    st.tuples(st.floats(0, 3000), st.floats(243.15, 323.15)),
    st.tuples(st.floats(60, 450), st.floats(0, 1)),
)
@examples(deadline=None, max_examples=25)
def test_a_fault_in_any_weather_at_any_speed_and_throttle_gives_an_answer_or_a_name(
    rig: Rig,
    fault: tuple[str, float],
    day: tuple[float, float],
    point: tuple[float, float],
) -> None:
    told, ratios, air = "", [1.0], Weather.at(day[0], temperature=day[1])
    angles = [STOP + share * (OPEN - STOP) for share in (point[1], point[1] ** 3)]
    try:
        now, faulty = faults.settings(rig, *fault), faults.apply(rig, *fault)
        ratios = [
            network.solve(faulty, air, PETROL, point[0], angle, settings=now).ratio
            for angle in angles
        ]
    except CircuitError as error:
        told = str(error)
    assert not told or re.search(NAME_RULE_VALUE, told)
    assert all(0 < ratio < inf for ratio in ratios)


def test_each_card_has_the_parts_for_most_faults() -> None:
    assert min(len(faults.fitting(rig)) for rig in (PLOVER, DUNLIN)) >= 22
    assert set(faults.fitting(PLOVER)) | set(faults.fitting(DUNLIN)) == set(FAULTS)


@pytest.mark.parametrize(
    ("name", "near"),
    [("soked-float", "soaked-float"), ("gasket-leak", "cover-gasket-leak"), ("", "")],
)
def test_an_unknown_fault_is_refused_naming_the_nearest(name: str, near: str) -> None:
    with pytest.raises(RangeError, match=rf"did you mean {near}.*, got {name}"):
        faults.apply(PLOVER, name)


@pytest.mark.parametrize("severity", [-0.01, 1.01, float("nan"), float("inf")])
def test_severity_outside_nought_to_one_is_refused(severity: float) -> None:
    with pytest.raises(RangeError, match="severity must be between 0 and 1, got"):
        faults.apply(PLOVER, "soaked-float", severity)
    with pytest.raises(RangeError, match="severity must be between 0 and 1, got"):
        faults.settings(PLOVER, "hot-bowl", severity)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("vent-solenoid-dead", "switched_share must be positive .* got 0 on plover"),
        ("canister-purge-blocked", "rig must have a section canister, got none on plover"),
    ],
)
def test_a_fault_of_a_part_that_is_not_fitted_is_refused(name: str, words: str) -> None:
    assert name not in faults.fitting(PLOVER)
    with pytest.raises(RangeError, match=words):
        faults.apply(PLOVER, name)


def test_half_a_blocked_bore_has_half_the_area_gone() -> None:
    half = faults.apply(PLOVER, "blocked-bypass", 0.5).low_speed.bypass_bore
    assert half**2 == pytest.approx(0.5 * PLOVER.low_speed.bypass_bore**2)


def test_a_screw_turned_too_far_stops_at_its_limiter() -> None:
    turns = PLOVER.low_speed.screw_turns
    limited = replace(
        PLOVER,
        low_speed=replace(PLOVER.low_speed, fewest_turns=turns - 0.25, most_turns=turns + 0.25),
    )
    assert faults.apply(limited, "mixture-screw-in").low_speed.screw_turns == turns - 0.25
    assert faults.apply(limited, "mixture-screw-out").low_speed.screw_turns == turns + 0.25
