"""Canister: against closed forms and scipy, and vapour that must not get lost."""

from itertools import accumulate, pairwise
from math import exp, pi, sqrt

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.canister import Canister, canister_run, purge_air, sorption
from fuelcircuits.physics.numerics.interpolation import linspace
from scipy.integrate import solve_ivp

BED = Canister(capacity=0.05, transfer_units=12.0)
TIMES = linspace(0.0, 3600.0, 121)
AMBIENT = 101_325.0


def test_all_vapour_is_somewhere_at_every_time() -> None:
    came = [3e-5 * exp(-now / 900) for now in TIMES]
    run = canister_run(BED, TIMES, came, 2e-4, load=0.01)
    spans = (30.0 * (before + after) / 2 for before, after in pairwise(came))
    assert [sum(row) for row in run] == pytest.approx([*accumulate(spans, initial=0.01)], rel=1e-7)


def test_the_run_agrees_with_scipy() -> None:
    def fill(t: float, x: list[float]) -> list[float]:
        through = 2e-5 * exp(-12 * (1 - x[0] / 0.05))
        back = 0.3 * 1e-5 * x[0] / 0.05
        return [2e-5 - through - back, through, back]

    theirs = solve_ivp(fill, (0, 3600), [0, 0, 0], "DOP853", TIMES, rtol=1e-11, atol=1e-15).y.T
    for row, expected in zip(canister_run(BED, TIMES, 2e-5, 1e-5), theirs.tolist(), strict=True):
        assert row == pytest.approx(expected, rel=1e-6, abs=1e-10)


def test_purging_alone_empties_the_bed_exponentially() -> None:
    # Closed form: dL/dt = -k m_air L / C.
    load = [row[0] for row in canister_run(BED, TIMES, 0.0, 1e-4, load=0.05)]
    assert load == pytest.approx([0.05 * exp(-0.3 * 1e-4 / 0.05 * now) for now in TIMES], rel=1e-6)


@pytest.mark.parametrize(("share", "low", "high"), [(0.0, 0.999, 1.0), (0.7, 0.9, 0.99), (1, 0, 0)])
def test_the_bed_captures_nearly_all_until_it_is_nearly_full(
    share: float, low: float, high: float
) -> None:
    captured = sorption(BED, share * BED.capacity, 1e-5).captured / 1e-5
    assert low <= captured <= high


def test_a_full_bed_lets_everything_through() -> None:
    assert sorption(BED, 0.06, 1e-5).lost == pytest.approx(1e-5)


def test_purge_air_rises_with_vacuum_and_then_chokes() -> None:
    flows = [purge_air(BED, share * AMBIENT, AMBIENT) for share in (1.0, 0.9, 0.6, 0.4, 0.2)]
    assert flows[0] == 0
    assert 0 < flows[1] < flows[2] < flows[3] == pytest.approx(flows[4])


def test_purge_air_when_choked_is_the_textbook_mass_flow() -> None:
    # Gas-dynamics identity: m sqrt(T) / (A p) = 0.04042 for air (tests/published, topic 2).
    area = 0.65 * pi / 4 * 1.2e-3**2
    flow = purge_air(BED, 0.3 * AMBIENT, AMBIENT, 300.0)
    assert flow * sqrt(300.0) / (area * AMBIENT) == pytest.approx(0.04042, rel=2e-4)


def test_manifold_pressure_above_ambient_blows_nothing_back() -> None:
    assert purge_air(BED, 1.5 * AMBIENT, AMBIENT) == 0


def test_a_course_that_does_not_fit_the_times_is_refused() -> None:
    with pytest.raises(RangeError, match="air must have one value for each time, got 2 for 121"):
        canister_run(BED, TIMES, 0.0, [1e-4, 2e-4])


def test_a_canister_of_no_size_is_refused_by_name() -> None:
    with pytest.raises(RangeError, match="capacity must be between"):
        Canister(capacity=0.0)
