"""Accelerator pump at rest: against closed forms."""

from dataclasses import replace
from math import pi

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.pump import (
    Pump,
    effective_area,
    pump_flows,
    rod_position,
    spring_force,
)

PUMP = Pump(
    bore=18e-3,
    plate_bore=18e-3,
    stroke=8e-3,
    linkage_start=0.2,
    linkage_rate=8e-3,
    spring_rate=400.0,
    spring_preload=2.0,
    lost_motion=10e-3,
    jet_bore=0.45e-3,
    jet_length=1.5e-3,
)


def test_a_plunger_displaces_its_bore_and_a_diaphragm_a_cone() -> None:
    assert effective_area(PUMP) == pytest.approx(pi / 4 * 18e-3**2)
    cone = pi / 3 * (9**2 + 9 * 6 + 6**2) * 1e-6  # frustum of unit height
    assert effective_area(replace(PUMP, plate_bore=12e-3)) == pytest.approx(cone)


def test_a_shut_check_and_a_tight_cup_pass_nothing() -> None:
    assert pump_flows(PUMP, 100.0) == pump_flows(PUMP, 0.0) == (0, 0, 0, 0)


def test_a_pump_of_no_stroke_is_refused_by_name() -> None:
    with pytest.raises(RangeError, match="stroke must be between"):
        replace(PUMP, stroke=0.0)


@pytest.mark.parametrize(
    ("rod", "plunger", "force"),
    [
        (4e-3, 1e-3, 2.0 + 400.0 * 3e-3),  # preload and rate
        (4e-3, 4e-3, 0.0),  # spring at its full length
        (1e-3, 2e-3, -4 * 400.0 * 1e-3),  # the collar pulls
        (8e-3, 8e-3, 0.0),  # at the bottom
    ],
)
def test_the_rod_pushes_by_the_spring_and_pulls_by_the_collar(
    rod: float, plunger: float, force: float
) -> None:
    assert spring_force(PUMP, rod, plunger) == pytest.approx(force)


@pytest.mark.parametrize(
    ("angle", "rod"), [(0.0, 0.0), (0.2, 0.0), (0.7, 4e-3), (1.2, 8e-3), (1.5, 8e-3)]
)
def test_the_rod_stops_at_the_stroke_and_starts_where_it_is_set(angle: float, rod: float) -> None:
    assert rod_position(PUMP, angle) == pytest.approx(rod)
