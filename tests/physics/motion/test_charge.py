"""The charge in the manifold: against a closed form, and fuel that must not get lost."""

from math import exp

import pytest
from fuelcircuits.physics.motion.charge import charge_step

AIR, TAKEN, BEFORE, AFTER = 1.2e-3, 12e-3, 0.4e-3, 1.0e-3  # kg, kg/s of air, kg/s of fuel


def stepped_up(count: int) -> list[float]:
    """Return the fuel in the air after a flow has stepped up for half a second."""
    fuel = [BEFORE * AIR / TAKEN]
    for _ in range(count):
        fuel.append(charge_step(fuel[-1], AFTER, TAKEN, AIR, 0.5 / count))
    return fuel


def test_a_step_of_fuel_arrives_with_the_time_that_the_air_stays() -> None:
    # Closed form: one well-mixed vessel, time constant air over flow, a tenth of a second.
    drawn = [each * TAKEN / AIR for each in stepped_up(5000)[::1000]]
    exact = [AFTER + (BEFORE - AFTER) * exp(-tenths) for tenths in range(6)]
    assert drawn == pytest.approx(exact, rel=1e-3)


@pytest.mark.parametrize("count", [1, 10, 500])
def test_fuel_arrived_is_fuel_drawn_in_and_grown(count: int) -> None:
    fuel = stepped_up(count)
    drawn = 0.5 / count * sum(each * TAKEN / AIR for each in fuel[1:])
    assert drawn + fuel[-1] - fuel[0] == pytest.approx(0.5 * AFTER, rel=1e-12)


def test_an_engine_that_takes_nothing_leaves_the_fuel_where_it_is() -> None:
    assert charge_step(1e-4, 2e-4, 0.0, AIR, 0.5) == pytest.approx(2e-4)
