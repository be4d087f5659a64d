"""Spark, dead cylinders, recirculation, back-pressure and the needle, each against another way."""

from dataclasses import replace
from itertools import pairwise
from math import exp, pi, radians

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.engine import breathing
from fuelcircuits.physics.engine.back_pressure import back_pressure, held_back, hindered_air
from fuelcircuits.physics.engine.engine import (
    Engine,
    air_demand,
    manifold_temperature,
    volumetric_efficiency,
)
from fuelcircuits.physics.engine.needle import cycle, strokes, swing
from fuelcircuits.physics.engine.recirculation import crowded_out, recirculated, recirculated_share
from fuelcircuits.physics.engine.torque import brake_torque
from fuelcircuits.physics.engine.work import diluted_work, firing_work, timed_work, work_share
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
ENGINE, AIR = PLOVER.engine, Weather.at()
IDLE, OUTSIDE = ENGINE.idle_speed, 101325.0


def test_an_engine_as_on_its_card_loses_nothing() -> None:
    assert work_share(ENGINE, IDLE) == 1.0
    assert back_pressure(ENGINE, 0.05) == 0.0
    assert recirculated(ENGINE, 35e3, OUTSIDE) == 0.0
    assert hindered_air(0.0123, 0.0) == 0.0123
    assert swing(ENGINE, IDLE, 35e3) == 0.0


@pytest.mark.parametrize(("late", "lost"), [(10.0, 0.033), (20.0, 0.13), (-10.0, 0.033)])
def test_late_spark_loses_what_the_handbook_has_under_load(late: float, lost: float) -> None:
    # Heywood 1988, figure 15-3, mean of its curves, from memory: about 3 % at ten degrees from the
    # best, 13 % at twenty.
    engine = replace(ENGINE, spark_late=radians(late))
    assert timed_work(engine, 3 * IDLE) == pytest.approx(1 - lost, abs=0.003)


def test_at_idle_an_early_spark_gains_until_it_is_best() -> None:
    # The card's spark stands 20 degrees behind there, so by hand 1 / (1 - 1.08 * 0.349^2) is most.
    best = replace(ENGINE, spark_late=radians(-20.0))
    assert timed_work(best, IDLE) == pytest.approx(1 / (1 - 1.08 * radians(20) ** 2), rel=1e-9)
    for late in (-10.0, 5.0):
        assert timed_work(replace(ENGINE, spark_late=radians(late)), IDLE) < timed_work(best, IDLE)


def test_one_cylinder_of_six_is_a_sixth_of_the_work() -> None:
    assert firing_work(replace(ENGINE, dead_cylinders=1.0)) == pytest.approx(5 / 6)


def test_recirculated_gas_is_that_of_a_choked_nozzle() -> None:
    # Heywood 1988, appendix C, eq. C.9 at k 1.4: m = 0.0404 A p / sqrt(T), worked by hand.
    engine = replace(ENGINE, recirculation=4e-6)
    by_hand = 0.0404 * 4e-6 * OUTSIDE / 600.0**0.5
    assert recirculated(engine, 35e3, OUTSIDE) == pytest.approx(by_hand, rel=2e-3)
    assert recirculated(engine, OUTSIDE, OUTSIDE) == 0.0
    assert crowded_out(1e-3, 300.0) == pytest.approx(2e-3)
    share = recirculated_share(engine, 4e-3, 35e3, OUTSIDE)
    assert share == pytest.approx(by_hand / (by_hand + 4e-3), rel=2e-3)
    assert diluted_work(0.25) == pytest.approx(exp(-1))


def test_air_behind_a_blocked_exhaust_is_that_of_its_own_back_pressure() -> None:
    engine = replace(ENGINE, exhaust_resistance=1e8)
    warm, speed, inside = manifold_temperature(engine, 288.15), 260.0, 60e3
    free = air_demand(engine, speed, inside, warm, OUTSIDE)
    loss = -air_demand(engine, speed, 0.0, warm, OUTSIDE)
    taken = hindered_air(free, held_back(engine, loss, OUTSIDE))
    beyond = OUTSIDE + back_pressure(engine, taken)
    assert air_demand(engine, speed, inside, warm, beyond) == pytest.approx(taken, rel=1e-9)


@pytest.mark.parametrize("entry", ["exhaust_resistance", "recirculation"])
def test_network_and_air_path_alone_agree_on_how_much_air_is_lost(entry: str) -> None:
    # Two balances, one with the circuits' own air in it and one without.
    size = {"exhaust_resistance": 5e7, "recirculation": 4e-6}[entry]
    engine = replace(ENGINE, **{entry: size})
    whole, plain = (
        [network.solve(replace(PLOVER, engine=one), AIR, Fuel(), 220.0, 0.45).air_flow, _air(one)]
        for one in (engine, ENGINE)
    )
    assert whole[0] / plain[0] == pytest.approx(whole[1] / plain[1], abs=0.005)
    assert whole[0] < 0.995 * plain[0]


def _air(engine: Engine) -> float:
    """Return the air by the air path alone [kg/s]."""
    return breathing.solve(engine, PLOVER.air_path, AIR, 220.0, 0.45).engine_flow


def test_back_pressure_costs_its_own_torque() -> None:
    # First principles: pressure times displacement over 4 pi.
    pipe = replace(ENGINE, exhaust_resistance=1e7)
    free, blocked = (brake_torque(one, 300.0, 0.05, 95e3, OUTSIDE) for one in (ENGINE, pipe))
    assert free - blocked == pytest.approx(1e7 * 0.05**2 * ENGINE.displacement / (4 * pi))


def test_the_needle_of_a_dead_cylinder_rises_by_one_stroke_of_air() -> None:
    # By hand, without the other cylinders pulling it down meanwhile: p eta / (n s).
    engine, inside = replace(ENGINE, dead_cylinders=1.0), 35e3
    along = strokes(engine, IDLE, inside)
    filled = 0.78
    by_hand = inside * filled / (engine.cylinders * engine.manifold_share)
    assert swing(engine, IDLE, inside) == pytest.approx(by_hand, rel=0.2)
    assert sum(along[1:]) / (len(along) - 1) == pytest.approx(inside)
    assert along[0] == pytest.approx(along[-1])


def test_the_needle_follows_its_equation() -> None:
    # The same equation marched in a hundred thousand small steps.
    engine, inside = replace(ENGINE, dead_cylinders=0.6), 35e3
    along = strokes(engine, IDLE, inside)
    count = len(along) - 1
    weak, filling = count // round(engine.cylinders), _filling()
    step, now, shown = cycle(IDLE) / count / 400, along[0], []
    mean = _entering(along)
    for slot in range(count):
        drawn = 0.4 if slot < weak else 1.0
        for _ in range(400):
            now += step * (mean - drawn * now) / filling
        shown.append(now)
    assert shown == pytest.approx(along[1:], rel=1e-4)


def _filling() -> float:
    return 4 * pi * ENGINE.manifold_share / (volumetric_efficiency(ENGINE, IDLE) * IDLE)


def _entering(along: list[float]) -> float:
    """Return the pressure that stands for the even inflow: what goes out in a cycle comes in."""
    count, weak = len(along) - 1, (len(along) - 1) // round(ENGINE.cylinders)
    middles = [(a + b) / 2 for a, b in pairwise(along)]
    drawn = [0.4 if slot < weak else 1.0 for slot in range(count)]
    return sum(g * p for g, p in zip(drawn, middles, strict=True)) / count
