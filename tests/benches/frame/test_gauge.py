"""Gauges: without error, with their own, with scatter, and the same for the same seed."""

from math import sqrt
from statistics import mean, pstdev

import pytest
from fuelcircuits.benches.frame.gauge import Gauge, shown
from fuelcircuits.benches.frame.measure import VACUUM

SETTING = {"speed": 80.0, "leak": False}


def gauge(value: object = 50e3, accuracy: float = 0.0, noise: float = 0.0) -> Gauge:
    return Gauge("Manifold vacuum", value, VACUUM, 0, 100e3, accuracy=accuracy, noise=noise)


@pytest.mark.parametrize(("value", "needle"), [(50e3, 50e3), (-1.0, 0.0), (2e5, 100e3)])
def test_without_a_seed_it_shows_the_truth_up_to_the_ends_of_the_dial(
    value: float, needle: float
) -> None:
    assert shown(gauge(value, accuracy=9e3, noise=9e3), None, SETTING) == needle


def test_same_seed_and_setting_show_the_same_and_others_do_not() -> None:
    noisy = gauge(accuracy=1e3, noise=500.0)
    first = shown(noisy, 7, SETTING)
    assert shown(noisy, 7, dict(reversed(SETTING.items()))) == first
    assert shown(noisy, 8, SETTING) != first
    assert shown(noisy, 7, SETTING | {"speed": 90.0}) != first


def test_own_error_is_within_the_accuracy_and_stays_with_the_instrument() -> None:
    errors = [shown(gauge(accuracy=1e3), seed, SETTING) - 50e3 for seed in range(400)]
    assert max(abs(each) for each in errors) <= 1e3
    # A uniform error has a standard deviation of its half-width over the root of three: GUM
    # (JCGM 100:2008), 4.3.7.
    assert pstdev(errors) == pytest.approx(1e3 / sqrt(3), rel=0.1)
    other = shown(gauge(accuracy=1e3), 5, SETTING | {"speed": 90.0})
    assert other - 50e3 == pytest.approx(errors[5])


def test_scatter_has_the_standard_deviation_stated() -> None:
    readings = shown(gauge([50e3] * 4000, noise=500.0), 3, SETTING)
    assert pstdev(readings) == pytest.approx(500.0, rel=0.05)
    assert mean(readings) == pytest.approx(50e3, abs=3 * 500 / sqrt(4000))
