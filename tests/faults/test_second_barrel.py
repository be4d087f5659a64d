"""Faults of the second barrel alone, where the barrels differ."""

from dataclasses import replace

import pytest
from fuelcircuits import faults
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.faults import FAULTS
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig

from tests.benches.fault_bench import AIR, FULL, PETROL
from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
OWN = replace(PLOVER.high_speed, jet_bore=1.7e-3)
TWO = replace(PLOVER, second=Rig("second", high_speed=OWN))
NAME = "second-barrel-blocked-main-jet"


def test_it_narrows_the_second_jet_and_not_the_first() -> None:
    faulty = faults.apply(TWO, NAME, 1.0)
    assert faulty.high_speed == PLOVER.high_speed
    assert faulty.second is not None
    assert faulty.second.high_speed.jet_bore < 0.2 * OWN.jet_bore
    assert faulty.second.low_speed == PLOVER.low_speed


def test_it_shows_in_the_second_barrels_fuel() -> None:
    healthy = network.solve(TWO, AIR, PETROL, *FULL)
    faulty = network.solve(faults.apply(TWO, NAME, 1.0), AIR, PETROL, *FULL)
    assert faulty.flows.main_jet[1] < 0.1 * healthy.flows.main_jet[1]
    assert faulty.flows.main_jet[0] == pytest.approx(healthy.flows.main_jet[0], rel=0.05)


def test_only_a_rig_with_a_second_barrel_of_its_own_can_have_it() -> None:
    assert NAME in faults.fitting(TWO)
    assert not any(name.startswith("second-barrel") for name in faults.fitting(PLOVER))
    with pytest.raises(RangeError, match="rig must have a second barrel of its own, got none"):
        faults.apply(PLOVER, NAME)


def test_what_both_barrels_share_is_no_fault_of_the_second() -> None:
    fitting = faults.fitting(TWO)
    for shared in ("soaked-float", "manifold-air-leak", "torn-pump-cup", "hot-bowl"):
        assert shared in fitting
        assert f"second-barrel-{shared}" not in fitting


def test_it_says_where_it_is() -> None:
    found = faults.find(NAME)
    assert found.name == NAME
    assert found.meaning == f"In the second barrel. {FAULTS['blocked-main-jet'].meaning}"
    with pytest.raises(RangeError, match="fault must be a known one"):
        faults.find("second-barrel-nothing")
