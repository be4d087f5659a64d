"""The sloping nozzle: hydrostatics, and a parked car drawn as a triangle."""

from math import pi, tan

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.high_speed import GRAVITY, HighSpeed
from fuelcircuits.physics.circuits.nozzle_slope import (
    INNER,
    MOUTH,
    SLOPES,
    drip_angle,
    run_out,
    starting_depression,
)

from tests.places import RIGS

CIRCUIT: HighSpeed = read_rig(RIGS / "plover.toml").high_speed
FUEL = 740.0


# First principles: the column from the level up to the lip.
def test_first_drop_needs_the_head_over_the_level() -> None:
    assert starting_depression(CIRCUIT, FUEL) == pytest.approx(FUEL * GRAVITY * CIRCUIT.lip)


# First principles: on a slope a level surface gains the way across times the tangent.
@pytest.mark.parametrize(("slope", "across"), [("up", MOUTH), ("down", INNER)])
def test_parked_car_drips_where_the_fuel_has_gained_the_lip(slope: str, across: float) -> None:
    assert across * tan(drip_angle(CIRCUIT, slope)) == pytest.approx(CIRCUIT.lip)


def test_nozzle_that_slopes_up_drips_at_a_gentler_slope() -> None:
    assert drip_angle(CIRCUIT, "up") < drip_angle(CIRCUIT, "down")


def test_only_a_nozzle_that_slopes_down_runs_out() -> None:
    full = FUEL * pi / 4 * CIRCUIT.nozzle_bore**2 * (MOUTH - INNER)
    assert {slope: run_out(CIRCUIT, slope, FUEL) for slope in SLOPES} == {
        "up": 0.0,
        "down": pytest.approx(full),
    }
