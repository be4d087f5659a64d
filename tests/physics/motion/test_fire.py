"""Fire and misfire: limits by hand, and what closes them in."""

from itertools import pairwise

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.motion.fire import firing_limits, firing_share, residual_share
from fuelcircuits.physics.numerics.interpolation import linspace

from tests.places import RIGS

ENGINE = read_rig(RIGS / "plover.toml").engine
OPEN, IDLE = (residual_share(ENGINE, pressure, 101325.0) for pressure in (98e3, 36e3))


def test_an_idling_engine_keeps_twice_the_burnt_gas_of_an_open_one() -> None:
    # About 0.08 and 0.18: common practice, from memory.
    assert pytest.approx(0.08, abs=0.01) == OPEN
    assert pytest.approx(0.17, abs=0.02) == IDLE


def test_the_charge_takes_what_the_clearance_holds_once_it_has_spread() -> None:
    # By hand: 0.67 / 8.5 times 2 to the power 1 / 1.35.
    assert residual_share(ENGINE, 50e3, 100e3) == pytest.approx(0.1317, rel=1e-3)


@pytest.mark.parametrize("residual", [0.05, OPEN, IDLE])
def test_at_its_limits_half_of_the_cycles_fire(residual: float) -> None:
    for limit in firing_limits(residual):
        assert firing_share(limit, residual) == pytest.approx(0.5, abs=2e-3)


@pytest.mark.parametrize(
    ("mixture", "residual", "least", "most"),
    [
        (0.92, IDLE, 0.99, 1.0),
        (0.6, IDLE, 0.9, 1.0),
        (1.1, IDLE, 0.9, 1.0),
        (1.2, OPEN, 0.9, 1.0),
        (1.36, OPEN, 0.2, 0.5),
        (1.5, IDLE, 0.0, 0.4),
        (1.8, OPEN, 0.0, 0.05),
        (0.35, OPEN, 0.0, 0.1),
    ],
)
def test_what_a_driver_knows_of_mixtures(
    mixture: float, residual: float, least: float, most: float
) -> None:
    # An engine runs between about 8:1 and 20:1: common practice, from memory.
    assert least <= firing_share(mixture, residual) <= most


def test_burnt_gas_closes_both_limits_in() -> None:
    limits = [firing_limits(each) for each in (0.05, 0.1, 0.2, 0.3)]
    assert all(a[0] <= b[0] and a[1] >= b[1] for a, b in pairwise(limits))
    assert limits[-1][0] > limits[0][0]


def test_a_leaner_and_leaner_mixture_fires_less_and_less() -> None:
    shares = [firing_share(each, IDLE) for each in linspace(1.0, 3.0, 9)]
    assert all(before > after for before, after in pairwise(shares))
    assert shares[-1] < 1e-6
