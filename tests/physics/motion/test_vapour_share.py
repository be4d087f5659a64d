"""Vapour of a warming engine: the charge's temperature at both ends, and the ratio's limits."""

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.evaporation import evaporated_share
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.vapour_share import vapour_share

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
PETROL, OUTSIDE, MANIFOLD = Fuel(), 273.15, 40e3


@pytest.mark.parametrize("warmth", [0.0, 0.5, 1.0])
def test_the_charge_is_warmed_as_the_block_is(warmth: float) -> None:
    block = OUTSIDE + warmth * (PLOVER.hot_soak.block_temperature - OUTSIDE)
    charge = OUTSIDE + warmth * PLOVER.engine.charge_heating
    share = vapour_share(PLOVER, PETROL, 12.0, MANIFOLD, coolant=block, outside=OUTSIDE)
    assert share == pytest.approx(evaporated_share(PETROL, charge, MANIFOLD, 12.0))


@pytest.mark.parametrize(("ratio", "taken"), [(0.0, 0.05), (1e4, 200.0)])
def test_a_ratio_beyond_the_relation_counts_as_its_end(ratio: float, taken: float) -> None:
    shares = [
        vapour_share(PLOVER, PETROL, each, MANIFOLD, coolant=OUTSIDE, outside=OUTSIDE)
        for each in (ratio, taken)
    ]
    assert shares[0] == shares[1]
