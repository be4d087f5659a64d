"""Slopes of the mass flux: against central differences of the flux itself."""

import numpy as np
import pytest
from fuelcircuits.physics.network.flux_slopes import mass_flux_and_slopes
from fuelcircuits.physics.openings.two_phase import mass_flux
from hypothesis import given
from hypothesis import strategies as st

GAS, DENSITY, TEMPERATURE = 287.05, 745.0, 293.15
SHARE = st.floats(1e-4, 1.0)
UPSTREAM = st.floats(40e3, 105e3)
DROP = st.floats(0.0, 0.95)


def flux(share: np.ndarray, upstream: float, drop: float) -> float:
    """Return the mass flux by the model that the slopes belong to."""
    found = mass_flux(
        share, np.array([upstream]), np.array([drop]), TEMPERATURE, DENSITY, gas_constant=GAS
    )
    return float(np.asarray(found)[0])


@given(SHARE, UPSTREAM, DROP)
def test_flux_is_that_of_the_model(share: float, upstream: float, part: float) -> None:
    drop, fuel = part * upstream, np.array([share])
    found = mass_flux_and_slopes(
        fuel, np.array([upstream]), np.array([drop]), TEMPERATURE, DENSITY, gas_constant=GAS
    )
    assert found.flux[0] == pytest.approx(flux(fuel, upstream, drop), rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("share", [0.0, 1e-3, 0.1, 0.6, 0.95, 1.0])
@pytest.mark.parametrize("drop", [1e-3, 0.7, 30.0, 4e3, 30e3, 55e3, 80e3])
def test_slopes_are_those_of_central_differences(share: float, drop: float) -> None:
    """Central differences in steps of 1e-5 of each argument are good to about 1e-7."""
    upstream = 95e3
    airy: float | np.ndarray = 0.0 if share == 0.0 else np.array([share])
    found = mass_flux_and_slopes(
        airy, np.array([upstream]), np.array([drop]), TEMPERATURE, DENSITY, gas_constant=GAS
    )
    fuel, small = np.array([share]), 1e-5
    step = small * upstream
    up = (flux(fuel, upstream + step, drop) - flux(fuel, upstream - step, drop)) / (2 * step)
    wider = (flux(fuel, upstream, drop * (1 + small)), flux(fuel, upstream, drop * (1 - small)))
    whole = flux(fuel, upstream, drop)
    assert found.to_upstream[0] * upstream == pytest.approx(up * upstream, abs=2e-6 * whole)
    across = (wider[0] - wider[1]) / (2 * small)
    assert found.to_drop[0] * drop == pytest.approx(across, abs=2e-6 * whole)
    if 0.0 < share < 1.0:
        more = flux(fuel * (1 + small), upstream, drop) - flux(fuel * (1 - small), upstream, drop)
        assert np.asarray(found.to_share)[0] * share == pytest.approx(
            more / (2 * small), rel=1e-5, abs=2e-6 * whole
        )


@pytest.mark.parametrize("share", [0.0, 0.3])
def test_standing_mixture_flows_in_proportion_to_its_drop(share: float) -> None:
    fuel: float | np.ndarray = 0.0 if share == 0.0 else np.array([share])
    found = mass_flux_and_slopes(
        fuel, np.array([1e5]), np.array([0.0]), TEMPERATURE, DENSITY, gas_constant=GAS
    )
    tiny = flux(np.array([share]), 1e5, 1e-6)
    assert found.flux[0] == 0.0
    assert found.to_drop[0] == pytest.approx(tiny / 1e-6, rel=1e-6)
