"""Fuel through a bare metering jet: a library, Poiseuille, and first principles."""

from math import pi, sqrt

import pytest
from fluids.core import Reynolds
from fluids.flow_meter import differential_pressure_meter_solver
from fuelcircuits.physics.circuits.high_speed import jet_coefficients, jet_flow
from fuelcircuits.physics.openings.orifice import ultimate_coefficient, viscous_coefficient
from hypothesis import given
from hypothesis import strategies as st

HEAVY, THICK = 740.0, 0.5e-3  # kg/m3, Pa s
BORES = st.floats(0.4e-3, 2.5e-3)
SLENDER = st.floats(0.0, 10.0)
DROPS = st.floats(1e-3, 1e5)


def passed(bore: float, length: float, drop: float) -> float:
    """Return the fuel through a round jet [kg/s]."""
    area, coefficients = pi / 4 * bore**2, jet_coefficients(bore, length)
    return jet_flow(area, bore, coefficients, drop, HEAVY, viscosity=THICK)


# fluids: an orifice meter in a pipe too wide for the approach to count, our coefficient given at
# the Reynolds number of the ideal velocity.
@pytest.mark.parametrize("drop", [1.0, 50.0, 500.0, 5e3, 5e4])
def test_flow_is_that_of_the_fluids_library(drop: float) -> None:
    reynolds = Reynolds(V=sqrt(2 * drop / HEAVY), D=1.3e-3, rho=HEAVY, mu=THICK)
    flow = differential_pressure_meter_solver(
        D=1.0, D2=1.3e-3, P1=1e5 + drop, P2=1e5, rho=HEAVY, mu=THICK, k=1.3,
        meter_type="ISO 5167 orifice", epsilon_specified=1.0,
        C_specified=viscous_coefficient(reynolds, 3.0, ultimate_coefficient(3.0)),
    )  # fmt: skip
    assert passed(1.3e-3, 3.9e-3, drop) == pytest.approx(flow, rel=1e-6)


# First principles: a laminar flow is proportional to the drop.
@pytest.mark.parametrize("times", [-2, -1, 0, 2])
def test_flow_is_proportional_to_the_drop_near_nought(times: float) -> None:
    small = passed(1e-3, 3e-3, 1e-9)
    assert passed(1e-3, 3e-3, times * 1e-9) == pytest.approx(times * small, rel=1e-3)


# Poiseuille, through `fluids`' friction factor 64/Re: the fit gives up to half as much again.
def test_laminar_end_of_a_long_hole_is_of_poiseuilles_size() -> None:
    drop, bore, length = 1e-4, 1e-3, 10e-3
    poiseuille = HEAVY * pi * bore**4 * drop / (128 * THICK * length)
    assert 1 < passed(bore, length, drop) / poiseuille < 1.5


@given(BORES, SLENDER, DROPS)
def test_flow_turns_round_with_the_drop(bore: float, slender: float, drop: float) -> None:
    length = slender * bore
    assert passed(bore, length, drop) == -passed(bore, length, -drop)


@given(BORES, SLENDER, DROPS)
def test_flow_rises_with_drop_and_bore(bore: float, slender: float, drop: float) -> None:
    length = slender * bore
    flow = passed(bore, length, drop)
    assert flow < passed(bore, length, 1.01 * drop)
    assert flow < passed(1.01 * bore, length, drop)
