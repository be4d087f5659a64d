"""What the analyser shows, and the way back to lambda against another's."""

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.matter.analyser import lambda_brettschneider, reading
from fuelcircuits.physics.matter.exhaust import Exhaust, dry, oxygen_needed, products
from fuelcircuits.physics.matter.fuel import stoichiometric_ratio_of
from hypothesis import given
from hypothesis import strategies as st

from tests.published.table import Row, rows

PETROL = 1.87  # hydrogen for each carbon; Heywood 1988, table D.4


def spindt(gas: Exhaust, hydrogen: float) -> float:
    """Return the air-fuel ratio of dry exhaust by a formula that is not ours.

    R. S. Spindt, Air-Fuel Ratios from Exhaust Gas Analysis, SAE 650507, 1965.
    """
    ratio, left = gas.co / gas.co2, gas.o2 / gas.co2
    carbon = 12.011 / (12.011 + 1.008 * hydrogen)
    by_oxygen = 11.492 * carbon * (1 + ratio / 2 + left) / (1 + ratio)
    by_hydrogen = 120 * (1 - carbon) / (3.5 + ratio)
    burnt = gas.co + gas.co2
    return burnt / (burnt + gas.hc) * (by_oxygen + by_hydrogen)


def ratio_shown(gas: Exhaust, hydrogen: float) -> float:
    """Return the air-fuel ratio that our analyser works out."""
    found = lambda_brettschneider(gas.co2, gas.co, gas.o2, gas.hc, hydrogen)
    return found * stoichiometric_ratio_of(hydrogen)


def test_lean_exhaust_of_a_known_ratio_of_gases() -> None:
    ratio, excess = (case.values[0] for case in rows("1c lean exhaust balance"))
    hydrogen = 0.16 / (0.84 / 12)
    needed = oxygen_needed(hydrogen) * (32 + 79.1 / 20.9 * 28) / (12 + hydrogen)
    found = lambda_brettschneider(6.0, 0.0, 1.0, 0.0, hydrogen)
    assert found * needed == ratio.digits
    assert 100 * (found - 1) == excess.digits


@pytest.mark.parametrize("row", rows("1e Spindt AFR from exhaust"))
def test_ratio_is_spindts_and_near_the_books(row: Row) -> None:
    # The book balances carbon and oxygen and comes out 1.1 % higher: its gases do not close
    # exactly, so the two balances differ. The table's 1.5 % covers that.
    gas = Exhaust(co2=7.5, co=1.0, o2=9.4, h2o=0.0, h2=0.0, hc=0.0, n2=82.1)
    assert spindt(gas, 2.053) == row.approx
    assert ratio_shown(gas, 2.053) == row.approx
    assert ratio_shown(gas, 2.053) == pytest.approx(spindt(gas, 2.053), rel=4e-3)


@pytest.mark.parametrize("row", rows("1e Brettschneider lambda x AFRst"))
def test_brettschneiders_lambda(row: Row) -> None:
    # 1.0 % from the book's own balance of the same gases.
    assert 14.858 * lambda_brettschneider(7.5, 1.0, 9.4, 0.0, 2.053) == row.approx


@given(st.floats(0.5, 3.0), st.floats(1.0, 4.0), st.floats(0.0, 1.0), st.floats(0.0, 0.1))
def test_brettschneider_undoes_the_burning(lambda_: float, y: float, z: float, u: float) -> None:
    gas = dry(products(lambda_, y, z, unburnt=u))
    found = lambda_brettschneider(gas.co2, gas.co, gas.o2, gas.hc, y, oxygen=z)
    assert found == pytest.approx(lambda_, rel=1e-10)


@given(st.floats(0.5, 3.0), st.floats(1.0, 3.0))
def test_ratio_is_spindts(lambda_: float, y: float) -> None:
    # His 11.492 and 120 carry air of 23.2 % oxygen by mass: 0.3 % from ours.
    gas = dry(products(lambda_, y))
    assert ratio_shown(gas, y) == pytest.approx(spindt(gas, y), rel=4e-3)


def test_reading_without_spread_is_the_burnt_gas() -> None:
    shown, gas = reading(0.9, PETROL), dry(products(0.9, PETROL))
    assert list(shown) == pytest.approx(list(gas), rel=1e-12)


def test_spread_leaves_monoxide_and_oxygen_side_by_side() -> None:
    shown = reading(1.0, PETROL, spread=0.04)
    assert 0.002 < shown.co < 0.01
    assert 0.001 < shown.o2 < 0.006


@pytest.mark.parametrize("lambda_", [0.8, 0.9, 1.0, 1.1])
def test_lambda_survives_the_spread(lambda_: float) -> None:
    shown = reading(lambda_, PETROL, spread=0.05)
    found = lambda_brettschneider(shown.co2, shown.co, shown.o2, shown.hc, PETROL)
    assert found == pytest.approx(lambda_, rel=2e-3)


def test_false_air_reads_lean() -> None:
    shown = [reading(0.95, PETROL, false_air=leak) for leak in (0.0, 0.1, 0.3)]
    tight, some, more = (
        lambda_brettschneider(gas.co2, gas.co, gas.o2, gas.hc, PETROL) for gas in shown
    )
    assert tight + 0.05 < some < more - 0.05


def test_false_air_keeps_the_ratio_of_monoxide_to_dioxide() -> None:
    whole, leaky = reading(0.9, PETROL), reading(0.9, PETROL, false_air=0.5)
    assert leaky.co / leaky.co2 == pytest.approx(whole.co / whole.co2, rel=1e-12)


def test_only_air_in_the_probe_is_near_a_fifth_oxygen() -> None:
    assert reading(1.0, PETROL, false_air=20.0).o2 == pytest.approx(0.2095 * 20 / 21, rel=1e-3)


def test_gas_that_did_not_burn_is_refused() -> None:
    with pytest.raises(RangeError, match="carbon dioxide must be positive"):
        lambda_brettschneider(0.0, 0.0, 20.9, 0.0, PETROL)
