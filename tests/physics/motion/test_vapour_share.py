"""Vapour of a warming engine: the charge's temperature at both ends, and the ratio's limits."""

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.evaporation import evaporated_share
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.vapour_share import vapour_share

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
PETROL, OUTSIDE, MANIFOLD = Fuel(), 273.15, 40e3


@pytest.mark.parametrize(("warmth", "heated"), [(0.0, 0.0), (0.5, 0.875), (1.0, 1.0)])
@pytest.mark.parametrize("outside", [253.15, 288.15])
def test_the_hot_spot_warms_the_charge_sooner_than_the_block_is_warm(
    warmth: float, heated: float, outside: float
) -> None:
    # By hand: half a block is seven eighths of a floor that warms three times as fast.
    missing = PLOVER.hot_soak.block_temperature - outside
    charge = outside + heated * PLOVER.engine.charge_heating * missing / 75.0
    block = outside + warmth * missing
    share = vapour_share(PLOVER, PETROL, 12.0, MANIFOLD, coolant=block, outside=outside)
    assert share == pytest.approx(evaporated_share(PETROL, charge, MANIFOLD, 12.0))


def test_air_as_warm_as_the_block_is_not_warmed() -> None:
    hot = PLOVER.hot_soak.block_temperature
    share = vapour_share(PLOVER, PETROL, 12.0, MANIFOLD, coolant=hot, outside=hot)
    assert share == pytest.approx(evaporated_share(PETROL, hot, MANIFOLD, 12.0))


@pytest.mark.parametrize(("ratio", "taken"), [(0.0, 0.05), (1e4, 200.0)])
def test_a_ratio_beyond_the_relation_counts_as_its_end(ratio: float, taken: float) -> None:
    shares = [
        vapour_share(PLOVER, PETROL, each, MANIFOLD, coolant=OUTSIDE, outside=OUTSIDE)
        for each in (ratio, taken)
    ]
    assert shares[0] == shares[1]
