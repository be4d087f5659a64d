"""The fuel: handbooks, tables of vapour pressure, and two libraries."""

import re
from collections.abc import Callable
from math import nan
from typing import Any

import cantera
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.matter import fuel as physics
from fuelcircuits.physics.matter.fuel import Fuel

from tests.published.table import Row, rows

PETROL, ETHANOL, E10 = Fuel(), Fuel(ethanol=1.0), Fuel(ethanol=0.1)
TEMPERATURES = [253.15, 273.15, 288.15, 293.15, 313.15, 333.15]

Law = Callable[[Fuel, float], float]


def pure(what: str, substance: str) -> Any:
    return np.array([PropsSI(what, "T", each, "P", 101325, substance) for each in TEMPERATURES])


def over(law: Law, fuel: Fuel) -> Any:
    return np.array([law(fuel, each) for each in TEMPERATURES])


def cantera_ratio(atoms: dict[str, float]) -> float:
    """Stoichiometric ratio by Cantera, in dry air with argon."""
    kinds = {"fuel": atoms, "O2": {"O": 2.0}, "N2": {"N": 2.0}, "AR": {"Ar": 1.0}}
    species = [cantera.Species(name, made_of) for name, made_of in kinds.items()]
    for each in species:  # heat capacities do not enter; Cantera wants some
        each.thermo = cantera.ConstantCp(200, 3500, 1e5, (298.15, 0, 0, 0))
    gas = cantera.Solution(thermo="ideal-gas", species=species)
    return float(gas.stoich_air_fuel_ratio("fuel", "O2:0.20946, N2:0.78084, AR:0.00934"))


# Heywood 1988, eq. 3.6 and table D.4.
@pytest.mark.parametrize("row", rows("1a stoich AFR", "y=H/C"))
def test_stoichiometric_ratio_is_heywoods(row: Row) -> None:
    ratio = physics.stoichiometric_ratio_of(row.number("H/C="), row.number("O/C="))
    assert ratio == row.approx


# Cantera 3.2.0, run beforehand.
@pytest.mark.parametrize("row", rows("1a stoich AFR (library)"))
def test_stoichiometric_ratio_is_the_librarys(row: Row) -> None:
    count = {a: float(n or 1) for a, n in re.findall(r"([CHO])([\d.]*)", row.inputs[5:])}
    ratio = physics.stoichiometric_ratio_of(count["H"] / count["C"], count.get("O", 0) / count["C"])
    assert ratio == row.approx


# Cantera, run here; its air has 20.946 % oxygen, Heywood's 20.95 %.
@pytest.mark.parametrize("share", [0.0, 0.05, 0.1, 0.25, 0.85, 1.0])
def test_stoichiometric_ratio_of_a_blend_is_canteras(share: float) -> None:
    y, z, *_ = physics.composition(Fuel(ethanol=share))
    expected = cantera_ratio({"C": 1.0, "H": y, "O": z})
    assert physics.stoichiometric_ratio(Fuel(ethanol=share)) == pytest.approx(expected, rel=1e-3)


# First principles: each part brings its own air.
def test_ratio_of_a_blend_lies_between_by_mass() -> None:
    share = physics.mass_shares(E10)
    mixed = share.petrol * 14.6 + share.ethanol * 9.0
    assert physics.stoichiometric_ratio(E10) == pytest.approx(mixed, rel=1e-3)


@pytest.mark.parametrize("share", [0.0, 0.1, 0.85, 1.0])
def test_mass_shares_of_the_elements_add_up(share: float) -> None:
    made_of = physics.composition(Fuel(ethanol=share))
    assert made_of.carbon + made_of.hydrogen + made_of.oxygen == pytest.approx(1, rel=1e-14)


# First principles: 2 x 12.011, 6 x 1.008 and 15.999 in 46.069.
def test_ethanol_is_made_of_what_its_formula_says() -> None:
    made_of = physics.composition(ETHANOL)
    np.testing.assert_allclose(made_of[2:], np.array([24.022, 6.048, 15.999]) / 46.069, rtol=1e-12)


# EPA AP-42, table 7.1-2 and figure 7.1-15.
@pytest.mark.parametrize("row", rows("8 AP-42 constant A"))
def test_vapour_pressure_constant_a(row: Row) -> None:
    assert physics.vapour_pressure_constants(row.number("RVP") * physics.PSI)[0] == row.digits


@pytest.mark.parametrize("row", rows("8 AP-42 constant B"))
def test_vapour_pressure_constant_b(row: Row) -> None:
    assert physics.vapour_pressure_constants(row.number("RVP") * physics.PSI)[1] == row.digits


@pytest.mark.parametrize("row", rows("8 true vapour pressure"))
def test_vapour_pressure_is_the_tables(row: Row) -> None:
    kelvin = (row.number("psi;") + 459.67) / 1.8
    blend = Fuel(reid_vapour_pressure=row.number("RVP") * physics.PSI)
    assert physics.vapour_pressure(blend, kelvin) / physics.PSI == row.approx


# ASTM D323: the Reid vapour pressure is taken at 100 degF; air and vapour space make it some
# per cent less than the true one (common practice).
def test_true_vapour_pressure_at_100_f_is_a_little_above_reid() -> None:
    ratio = physics.vapour_pressure(PETROL, 310.928) / PETROL.reid_vapour_pressure
    assert 1.0 < ratio < 1.12


# CoolProp: ethanol by its reference equation of state.
def test_density_of_ethanol_is_coolprops() -> None:
    np.testing.assert_allclose(over(physics.density, ETHANOL), pure("D", "Ethanol"), rtol=2e-3)


def test_viscosity_of_ethanol_is_coolprops() -> None:
    np.testing.assert_allclose(over(physics.viscosity, ETHANOL), pure("V", "Ethanol"), rtol=0.05)


# CoolProp: petrol is no pure substance, but it lies among its own.
def test_density_of_petrol_falls_as_its_substances_do() -> None:
    falls = [pure("D", name)[0] / pure("D", name)[-1] for name in ("Toluene", "n-Heptane")]
    dense = over(physics.density, PETROL)
    assert min(falls) < dense[0] / dense[-1] < max(falls) * 1.01


def test_viscosity_of_petrol_lies_among_its_substances() -> None:
    thick = over(physics.viscosity, PETROL)
    assert np.all((pure("V", "n-Heptane") < thick) & (thick < pure("V", "Toluene")))


# CoolProp: heat of vaporisation at the normal boiling point; n-octane for petrol.
@pytest.mark.parametrize(("fuel", "name"), [(ETHANOL, "Ethanol"), (PETROL, "n-Octane")])
def test_heat_of_vaporisation_is_that_at_the_boiling_point(fuel: Fuel, name: str) -> None:
    vapour, liquid = (PropsSI("H", "P", 101325, "Q", each, name) for each in (1, 0))
    assert physics.heat_of_vaporisation(fuel) == pytest.approx(vapour - liquid, rel=0.02)


@pytest.mark.parametrize("law", [physics.density, physics.viscosity, physics.vapour_pressure])
@pytest.mark.parametrize("temperature", [20.0, 400.0, nan])
def test_temperature_outside_the_laws_is_refused(law: Law, temperature: float) -> None:
    with pytest.raises(RangeError, match=r"temperature must be between 223\.15 and 363\.15 K, got"):
        law(PETROL, temperature)


@pytest.mark.parametrize("share", [-0.1, 1.1, nan])
def test_share_of_ethanol_outside_a_blend_is_refused(share: float) -> None:
    with pytest.raises(RangeError, match="ethanol must be between 0 and 1"):
        Fuel(ethanol=share)
