"""Cold mixture: against CoolProp, scipy and the fuel's own vapour pressure."""

from functools import partial

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.matter import evaporation
from fuelcircuits.physics.matter.evaporation import (
    Slices,
    evaporated_share,
    saturation_pressure,
    slices,
)
from fuelcircuits.physics.matter.fuel import Fuel, vapour_pressure
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace
from scipy import optimize

PETROL = Fuel()
ATMOSPHERE = 101_325.0
TEMPERATURES = linspace(243.15, 333.15, 10)


def raoult(cut: Slices, temperature: float) -> float:
    """Return the vapour pressure of the slices together [Pa]."""
    pressures = [saturation_pressure(boiling, temperature) for boiling in cut.boiling_point]
    return float(np.dot(cut.moles, pressures) / np.sum(cut.moles))


@pytest.mark.parametrize("fluid", ["n-Pentane", "n-Hexane", "n-Heptane", "Toluene", "Isopentane"])
def test_vapour_pressures_are_those_of_pure_hydrocarbons(fluid: str) -> None:
    boiling = PropsSI("T", "P", ATMOSPHERE, "Q", 0, fluid)
    for temperature in (273.15, 298.15, 310.93):
        truth = PropsSI("P", "T", temperature, "Q", 0, fluid)
        assert saturation_pressure(boiling, temperature) == pytest.approx(truth, rel=0.04)


@pytest.mark.parametrize("fluid", ["n-Pentane", "n-Hexane", "n-Heptane", "n-Octane"])
def test_molar_masses_are_those_of_the_series_near_each_boiling_point(fluid: str) -> None:
    # Petrol is denser than its paraffins, so its molar mass lies a little below theirs.
    cut = slices(PETROL)
    boiling = PropsSI("T", "P", ATMOSPHERE, "Q", 0, fluid)
    ours = interpolate(boiling, cut.boiling_point, cut.molar_mass)
    assert ours == pytest.approx(PropsSI("M", fluid) * 1e3, rel=0.08)


@pytest.mark.parametrize("reid", [50e3, 62e3, 90e3])
def test_the_slices_together_have_the_fuels_vapour_pressure(reid: float) -> None:
    fuel = Fuel(reid_vapour_pressure=reid)
    together = raoult(slices(fuel), 310.93)
    assert together == pytest.approx(vapour_pressure(fuel, 310.93), rel=1e-9)


@pytest.mark.parametrize("temperature", [273.15, 293.15])
def test_away_from_the_reid_temperature_the_two_vapour_pressures_stay_near(
    temperature: float,
) -> None:
    # Two independent roads: AP-42's equation and the sum over the slices.
    together = raoult(slices(PETROL), temperature)
    assert together == pytest.approx(vapour_pressure(PETROL, temperature), rel=0.1)


@pytest.mark.parametrize(
    ("temperature", "pressure", "ratio"), [(253.15, 1e5, 2.0), (283.15, 4e4, 9)]
)
def test_the_share_agrees_with_a_flash_solved_by_scipy(
    temperature: float, pressure: float, ratio: float
) -> None:
    # Rachford and Rice's equation with air as a component that never condenses.
    cut = slices(PETROL)
    amounts = np.append(cut.moles, ratio / 28.96)
    boiling = cut.boiling_point
    k = np.array([*(saturation_pressure(each, temperature) / pressure for each in boiling), 1e12])
    shares = amounts / amounts.sum()
    vapour = optimize.brentq(
        lambda v: np.sum(shares * (k - 1) / (1 + v * (k - 1))), 1e-9, 1 - 1e-9, xtol=1e-14
    )
    gone = (shares * vapour * k / (1 + vapour * (k - 1)))[:-1] * amounts.sum()
    truth = np.sum(gone * cut.molar_mass)
    assert evaporated_share(PETROL, temperature, pressure, ratio) == pytest.approx(truth, rel=1e-8)


def test_twice_as_many_slices_hardly_change_the_share(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def shares() -> list[float]:
        return [evaporated_share(PETROL, each, ATMOSPHERE, 12.0) for each in TEMPERATURES]

    coarse = shares()
    monkeypatch.setattr(evaporation, "slices", partial(slices, count=24))
    change = np.abs(np.subtract(shares(), coarse))
    assert 0.001 < np.max(change) < 0.015


def test_warmer_thinner_and_leaner_each_evaporate_a_larger_share() -> None:
    by_heat = [evaporated_share(PETROL, each, ATMOSPHERE, 5.0) for each in TEMPERATURES]
    by_pressure = [evaporated_share(PETROL, 263.15, each, 5.0) for each in linspace(1e5, 3e4, 8)]
    by_ratio = [evaporated_share(PETROL, 263.15, ATMOSPHERE, each) for each in linspace(1, 12, 8)]
    assert all(np.all(np.diff(each) > 0) for each in (by_heat[:8], by_pressure, by_ratio))
    assert by_heat[-1] == 1


def to_deliver(temperature: float, fuel: Fuel = PETROL) -> float:
    """Return the air-fuel ratio of which 14 parts of air to one of vapour come."""

    def surplus(ratio: float) -> float:
        return 14.0 * evaporated_share(fuel, temperature, ATMOSPHERE, ratio) - ratio

    return float(optimize.brentq(surplus, 0.1, 14.1))


def test_a_more_volatile_fuel_needs_less_choke() -> None:
    summer, winter = (to_deliver(258.15, Fuel(reid_vapour_pressure=reid)) for reid in (55e3, 95e3))
    assert winter > 1.2 * summer


def test_colder_air_needs_a_richer_mixture_to_burn() -> None:
    delivered = [to_deliver(each) for each in TEMPERATURES]
    assert np.all(np.diff(delivered) >= -1e-9)
    assert delivered[0] < 1.5  # common practice, no source: near one to one in deep frost
    assert delivered[-1] == pytest.approx(14.0)


def test_a_temperature_outside_the_relation_is_refused() -> None:
    with pytest.raises(RangeError, match="temperature must be between 230 and 420"):
        evaporated_share(PETROL, 200.0, ATMOSPHERE, 12.0)
