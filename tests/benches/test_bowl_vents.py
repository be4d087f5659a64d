"""The vents bench: what it says agrees with the model, and goes the way the trade says."""

from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from fuelcircuits.benches.bowl_vents.bench import BowlVentsBench
from fuelcircuits.benches.bowl_vents.drawing import OPENING
from fuelcircuits.benches.bowl_vents.found import SPANS
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.bowl_vents import outside_lift
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import curb_idle, solve
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.plate import OPEN

from tests.benches.checks import ends, off_curve, purely, shows, whole
from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH = BowlVentsBench(PLOVER)
SWITCHED = BowlVentsBench(DUNLIN)
DIRTY = {"cleaner_blocked": 0.6}
HOT = {"way": "idle", "fuel_temperature": 331.15, "outside_setting": 0.0}


def state(bench: BowlVentsBench = BENCH, /, **changed: Any) -> State:
    return bench.compute(bench.values() | changed, "SI")


def reading(label: str, bench: BowlVentsBench = BENCH, /, **changed: Any) -> float:
    return next(float(e.value) for e in state(bench, **changed).readings if e.label == label)


@pytest.mark.parametrize("bench", [BENCH, SWITCHED], ids=["plover", "dunlin"])
@pytest.mark.parametrize("way", ["idle", "cruise", "full"])
def test_untouched_bench_is_the_card(bench: BowlVentsBench, way: str) -> None:
    air, card = Weather.at(), bench.card
    stop = curb_idle(card, air, Fuel())
    point = {"cruise": (220.0, 0.45), "full": (320.0, OPEN)}.get(
        way, (stop.speed, stop.throttle_angle)
    )
    found = solve(card, air, Fuel(), *point, settings=Settings(fuel_temperature=298.15))
    assert reading("Lambda", bench, way=way) == pytest.approx(found.mixture, rel=1e-4)


# Which way the trade says each fault goes: common practice, no source.
@pytest.mark.parametrize(
    ("changed", "sign"),
    [
        (DIRTY | {"gasket_leak": 20e-6}, -1),
        (DIRTY | {"outside_hang": 1e-3}, -1),
        (DIRTY | {"outside_setting": 5e-3}, -1),
        (DIRTY | {"solenoid_pull": 0.0}, -1),
        ({"solenoid_pull": 0.0, "canister_suction": 200.0}, +1),
        ({"fuel_temperature": 331.15, "inside_blocked": 0.5}, -1),
    ],
)
def test_a_fault_moves_the_mixture_the_way_the_trade_says(
    changed: dict[str, float], sign: int
) -> None:
    assert sign * (reading("Lambda", **changed) - reading("Lambda")) > 0


# Mechanism: the inside vent lets the bowl follow the horn, so both ends of the jet move alike.
def test_a_dirty_cleaner_hardly_moves_a_bowl_vented_inside() -> None:
    inside, outside = (
        reading("Lambda", **DIRTY) / reading("Lambda") - 1,
        reading("Lambda", **DIRTY, outside_hang=2e-3) / reading("Lambda") - 1,
    )
    assert abs(inside) < 0.005
    assert outside < -0.05


@pytest.mark.parametrize(
    ("name", "steps"),
    [
        ("outside_hang", linspace(0, 2e-3, 5)),
        ("gasket_leak", linspace(0, 40e-6, 5)),
        ("inside_blocked", linspace(0, 0.9, 5)),
    ],
)
def test_every_step_towards_outside_air_raises_bowl_pressure(name: str, steps: list[float]) -> None:
    start = DIRTY | {"gasket_leak": 5e-6}
    gauge = [reading("Bowl against outside", **(start | {name: at})) for at in steps]
    assert all(before < after for before, after in pairwise(gauge))


def test_outside_vent_at_closed_throttle_lets_the_vapour_of_hot_fuel_out() -> None:
    shut, lifted = state(**HOT), state(**(HOT | {"outside_setting": 3e-3}))
    assert shut.alarm
    assert "floods" in shut.verdict
    assert not lifted.alarm


@pytest.mark.parametrize("changed", [{}, DIRTY, DIRTY | {"gasket_leak": 30e-6}, {"way": "full"}])
def test_dots_lie_on_their_curves(changed: dict[str, float]) -> None:
    assert off_curve(state(**changed), rel=5e-3, share=0.02) == []


@pytest.mark.parametrize("way", ["idle", "cruise", "full"])
def test_mixture_curve_falls_as_bowl_pressure_rises(way: str) -> None:
    curve = state(way=way).chart.panels[0].curves[0]
    assert all(before > after for before, after in pairwise(curve.y))
    assert (curve.x[0], curve.x[-1]) == SPANS[way]


@pytest.mark.parametrize("setting", [0.0, 1.5e-3, 4e-3])
def test_outside_vent_is_drawn_to_scale(setting: float) -> None:
    found = state(way="idle", outside_setting=setting)
    angle = curb_idle(PLOVER, Weather.at(), Fuel()).throttle_angle
    vents = BENCH.card.vents
    lift = outside_lift(replace(vents, outside_setting=setting), angle)
    assert (148 - found.numbers["cap_foot"]) / OPENING == pytest.approx(lift, abs=1e-9)
    wide = found.numbers["outside_right"] - found.numbers["outside_left"]
    assert wide / OPENING == pytest.approx(vents.outside_bore)


@pytest.mark.parametrize("bench", [BENCH, SWITCHED], ids=["plover", "dunlin"])
def test_every_end_of_every_control_gives_a_whole_state(bench: BowlVentsBench) -> None:
    for values in ends(bench):
        found = bench.compute(values, "US")
        assert whole(bench, found) == []
        assert shows(found) == []


def test_compute_is_pure() -> None:
    assert purely(BENCH, BENCH.values() | DIRTY | {"gasket_leak": 20e-6})


def test_rig_without_vents_is_refused() -> None:
    with pytest.raises(CardError, match="bare: vents must be given"):
        BowlVentsBench(Rig(name="bare"))
