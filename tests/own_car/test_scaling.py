"""Cards scaled from a teaching rig describe engines that run, of any usual size."""

from dataclasses import replace
from math import pi, radians, sqrt

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.own_car.healthy import healthy
from fuelcircuits.own_car.scaling import RIGS, nearest, rig_named, scaled, scaled_second
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network

from tests import places

PLOVER, DUNLIN = rig_named("plover"), rig_named("dunlin")
AIR, PETROL = Weather.at(), Fuel()
RPM = pi / 30
SMALL = {
    "engine.displacement": 1.6e-3,
    "engine.idle_speed": 850 * RPM,
    "air_path.venturi_bore": 22e-3,
    "air_path.throttle_bore": 30e-3,
}
SIZES = [
    SMALL,
    {"engine.displacement": 2.0e-3, "engine.idle_speed": 800 * RPM, "air_path.venturi_bore": 24e-3},
    {"engine.displacement": 5.7e-3, "engine.idle_speed": 600 * RPM, "air_path.venturi_bore": 33e-3},
    {"engine.displacement": 1.0e-3, "engine.idle_speed": 850 * RPM, "air_path.barrels": 1.0},
]


@pytest.mark.parametrize("name", RIGS)
def test_the_rigs_to_scale_from_are_those_of_the_course(name: str) -> None:
    kept = places.TOP / "widgets/fuelcircuits/own_car/rigs" / f"{name}.toml"
    assert kept.read_text() == (places.RIGS / f"{name}.toml").read_text(), "run make garage"


def test_every_rig_of_the_course_can_be_scaled_from() -> None:
    assert {card.stem for card in places.RIGS.glob("*.toml")} == set(RIGS)


def test_a_rig_nobody_has_is_refused() -> None:
    with pytest.raises(RangeError, match="rig must be one of plover, dunlin, got 'heron'"):
        rig_named("heron")


def test_a_rig_scaled_to_its_own_size_is_itself() -> None:
    assert scaled(PLOVER, {"engine.displacement": PLOVER.engine.displacement}) == PLOVER


def test_the_nearest_is_near_in_size_and_has_the_same_kind_of_well() -> None:
    assert nearest(SMALL) == "plover"
    assert nearest({"engine.displacement": 5e-3, "air_path.venturi_bore": 31e-3}) == "dunlin"
    assert nearest({**SMALL, "high_speed.air_bleed_bore": 0.0}) == "dunlin"
    plain = {"engine.displacement": 5e-3, "high_speed.air_bleed_bore": 1e-3}
    assert nearest(plain) == "plover"


@pytest.mark.parametrize("known", SIZES, ids=lambda one: f"{1e3 * one['engine.displacement']:g}")
def test_a_scaled_card_idles_and_cruises_like_a_healthy_engine(known: dict[str, float]) -> None:
    rig = scaled(rig_named(nearest(known)), known)
    found = healthy(rig, AIR, PETROL, measured=known)
    # A small engine's card is lean just off idle, up to 1.22, before it is moved to a healthy one.
    assert set(found.strange) <= {"off-idle-mixture"}
    assert found.entered["off-idle-mixture"] < 1.25
    assert 0.8 < found.entered["idle-mixture"] < 1.05


def test_bores_grow_with_the_venturi_and_idle_bores_with_the_root_of_the_air() -> None:
    rig = scaled(PLOVER, SMALL)
    wide = 22e-3 / PLOVER.air_path.venturi_bore
    assert rig.high_speed.jet_bore == pytest.approx(wide * PLOVER.high_speed.jet_bore)
    air = SMALL["engine.displacement"] * SMALL["engine.idle_speed"]
    grown = sqrt(air / (PLOVER.engine.displacement * PLOVER.engine.idle_speed))
    assert rig.low_speed.jet_bore == pytest.approx(grown * PLOVER.low_speed.jet_bore)
    assert rig.air_path.throttle_bore == SMALL["air_path.throttle_bore"]


def test_a_measured_jet_takes_its_rod_along() -> None:
    rig = scaled(PLOVER, {"high_speed.jet_bore": 1.2e-3})
    assert rig.power.lean_step / 1.2e-3 == pytest.approx(
        PLOVER.power.lean_step / PLOVER.high_speed.jet_bore
    )


@pytest.mark.parametrize(
    ("known", "other", "expected"),
    [("float_setting", "specified_level", 18e-3), ("specified_level", "float_setting", 6e-3)],
)
def test_float_and_level_go_together(known: str, other: str, expected: float) -> None:
    rig = scaled(PLOVER, {f"float_bowl.{known}": 12e-3})
    assert getattr(rig.float_bowl, other) == pytest.approx(expected)


def test_a_late_barrel_idles_on_the_first_and_its_slot_lies_above_the_plate() -> None:
    own = {"air_path.venturi_bore": 26e-3, "air_path.opens_at": radians(45)}
    first = scaled(PLOVER, SMALL, alone=True)
    rig = replace(first, second=scaled_second(PLOVER, SMALL, own))
    assert rig.second is not None
    assert rig.second.air_path.throttle_bore == pytest.approx(30e-3 * 26 / 22)
    idle = network.curb_idle(rig, AIR, PETROL)
    assert abs(idle.flows.main_jet[1]) < 0.01 * idle.flows.main_jet[0]
    assert max(map(abs, healthy(rig, AIR, PETROL, measured=SMALL).settled.off)) <= 1.0
