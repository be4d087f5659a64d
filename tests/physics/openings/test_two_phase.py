"""Two-phase flow against its two limits, Leung's omega method, and the definition of choking."""

from itertools import pairwise
from math import log, pi, sqrt

import numpy as np
import pytest
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings import gas_flow, two_phase
from fuelcircuits.physics.openings.two_phase import (
    critical_ratio,
    mass_flux,
    specific_volume,
)
from scipy.optimize import brentq

BEFORE, WARM, FUEL = 100e3, 300.0, 740.0
GAS = AIR_CONSTANT * WARM
BEHIND = [99.9e3, 95e3, 80e3, 60e3, 53e3, 40e3, 5e3]
VOIDS = [1e-4, 1e-3, 0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99, 1.0]


def flux(share: float, behind: float = 90e3) -> float:
    return mass_flux(share, BEFORE, behind, GAS, FUEL)


@pytest.mark.parametrize("behind", BEHIND)
@pytest.mark.parametrize("share", [0.0, 1e-13])
def test_air_alone_is_isentropic_flow(share: float, behind: float) -> None:
    air = gas_flow.mass_flow(1.0, BEFORE, behind, WARM)
    assert flux(share, behind) == pytest.approx(air, rel=1e-12)


@pytest.mark.parametrize("behind", BEHIND)
def test_fuel_alone_is_the_plain_orifice(behind: float) -> None:
    bernoulli = sqrt(2 * FUEL * (BEFORE - behind))
    assert flux(1.0, behind) == pytest.approx(bernoulli, rel=1e-4)  # 1 Pa of rounding at 100 Pa


def test_air_alone_chokes_where_a_gas_does() -> None:
    assert critical_ratio(1.0) == pytest.approx(gas_flow.critical_ratio(), rel=1e-12)


@pytest.mark.parametrize("void", VOIDS)
def test_mixture_chokes_where_its_flux_peaks(void: float) -> None:
    ratio = np.linspace(1e-4, 0.9999, 400_001)
    work = void * 3.5 * (1 - ratio ** (0.4 / 1.4)) + (1 - void) * (1 - ratio)
    peak = ratio[np.argmax(np.sqrt(work) / (void * ratio ** (-1 / 1.4) + 1 - void))]
    assert critical_ratio(void) == pytest.approx(peak, abs=1e-5)


@pytest.mark.parametrize("void", VOIDS)
def test_isothermal_mixture_is_leung_s_omega_method(void: float) -> None:
    """Leung, AIChE J. 32 (1986), eq. for the critical ratio, from memory; omega = void share.

    With a heat ratio of 1 the volume is exactly 1 + omega (p0/p - 1) of what it was.
    """

    def leung(ratio: float) -> float:
        squares = ratio**2 + (void**2 - 2 * void) * (1 - ratio) ** 2
        return squares + 2 * void**2 * log(ratio) + 2 * void**2 * (1 - ratio)

    expected = brentq(leung, 1e-6, 1 - 1e-9, xtol=1e-14)
    assert critical_ratio(void, 1 + 1e-7) == pytest.approx(expected, rel=1e-5)


def test_choked_flux_is_leung_s() -> None:
    """G = ratio / sqrt(omega) * sqrt(p0 / v0) at the critical ratio (same source)."""
    share = 0.9
    volume = specific_volume(share, BEFORE, WARM, FUEL)
    void = 1 - share / (FUEL * volume)
    expected = critical_ratio(void, 1 + 1e-7) * sqrt(BEFORE / (void * volume))
    found = mass_flux(share, BEFORE, 0.1 * BEFORE, GAS, FUEL, heat_ratio=1 + 1e-7)
    assert found == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("share", [0.0, 0.3, 0.9, 0.999, 1.0])
def test_flow_turns_round_with_the_drop(share: float) -> None:
    there, back = mass_flux(share, 1e5, 9e4, GAS, FUEL), mass_flux(share, 9e4, 1e5, GAS, FUEL)
    assert there == pytest.approx(-back, rel=1e-14)


@pytest.mark.parametrize("share", [0.0, 0.5, 0.99, 1.0])
def test_flow_never_falls_as_the_pressure_behind_falls(share: float) -> None:
    passed = [flux(share, behind) for behind in linspace(99.9e3, 1e3, 500)]
    assert all(after - before >= -1e-9 for before, after in pairwise(passed))


def test_more_fuel_in_the_mixture_is_a_heavier_flow() -> None:
    passed = [flux(share) for share in (0.0, 0.5, 0.9, 0.99, 1.0)]
    assert all(before < after for before, after in pairwise(passed))


def test_area_of_a_round_hole() -> None:
    assert two_phase.bore_area(2e-3) == pytest.approx(pi * 1e-6)
