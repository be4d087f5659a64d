"""What a solved carburettor shows: every flow and pressure, and the readings made of them."""

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.circuits.off_idle import valve_lift
from fuelcircuits.physics.network.circuit_flows import Flows, flows
from fuelcircuits.physics.network.circuit_pressures import Pressures, pressures
from fuelcircuits.physics.network.problem import PORT_DISCHARGE, Points, Problem

__all__ = ["LEANEST", "State", "state_of"]

Floats = NDArray[np.float64]

LEANEST = 1e6
"""Air-fuel ratio [1] that stands for any leaner one, and for no fuel at all."""


class State(NamedTuple):
    """A solved network.

    Fields have the shape that the inputs broadcast to. Those of a barrel have one more axis
    before it: one row where the barrels are alike, two where they differ.
    """

    speed: Floats  # rad/s
    throttle_angle: Floats  # rad
    ambient_pressure: Floats  # Pa
    stoichiometric: Floats  # air-fuel ratio that just burns this fuel [1]
    pressures: Pressures
    flows: Flows
    valve_lift: Floats  # share of the off-idle bleed valve's lift [1]
    slot_below: Floats  # m2, one barrel's idle port below the edge of the plate
    slot_above: Floats  # m2, above it
    alike: float  # real barrels for each row
    unknowns: Floats  # a start for another solve
    slopes: Floats | None = None  # kg/(s Pa), of a single point, for the same

    def all_barrels(self, flow: Floats) -> Floats:
        """Return a barrel's flow added up over all barrels."""
        return np.asarray(self.alike * flow.sum(axis=0))

    @property
    def air_flow(self) -> Floats:
        """Air into the engine [kg/s]."""
        return self.flows.engine

    @property
    def fuel_flow(self) -> Floats:
        """Fuel out of the bowl by the main jets [kg/s]."""
        return self.all_barrels(self.flows.main_jet)

    @property
    def fuel_air_ratio(self) -> Floats:
        """Fuel for each kilogram of air [1]; nought but for rounding if the wells are empty."""
        return np.asarray(self.fuel_flow / self.air_flow)

    @property
    def ratio(self) -> Floats:
        """Air-fuel ratio by mass [1]; `LEANEST` where it is that or leaner, or no fuel flows."""
        return np.asarray(1.0 / np.maximum(self.fuel_air_ratio, 1.0 / LEANEST))

    @property
    def mixture(self) -> Floats:
        """Lambda: air over the air needed [1]."""
        return np.asarray(self.ratio / self.stoichiometric)

    @property
    def fuel_by_circuit(self) -> dict[str, Floats]:
        """Fuel by the way it leaves, all barrels together [kg/s].

        "spill" is what spits out of an air bleed into the horn or the bore.
        """
        f = self.flows
        return {
            "nozzle": self.all_barrels(f.nozzle.fuel),
            "slot": self.all_barrels(f.slot_below.fuel - f.slot_above.fuel),
            "screw": self.all_barrels(f.screw.fuel),
            "spill": self.all_barrels(-f.bypass.fuel - f.idle_air.fuel - f.valve.fuel),
        }

    @property
    def power_fuel(self) -> Floats:
        """The part of the fuel that the metering rods have added [kg/s]."""
        return self.all_barrels(self.flows.main_jet * self.flows.power_share)

    @property
    def manifold_vacuum(self) -> Floats:
        """Ambient less manifold pressure [Pa]."""
        return np.asarray(self.ambient_pressure - self.pressures.manifold)

    @property
    def chamber_vacuum(self) -> Floats:
        """Ambient pressure less that of the idle-port chamber [Pa], barrel by barrel."""
        return np.asarray(self.ambient_pressure - self.pressures.chamber)

    @property
    def booster_depression(self) -> Floats:
        """Horn pressure less that in the booster's throat [Pa], barrel by barrel."""
        return np.asarray(self.pressures.horn - self.pressures.booster)

    @property
    def well_drop(self) -> Floats:
        """Bowl pressure less that of the well [Pa], barrel by barrel."""
        return np.asarray(self.pressures.bowl - self.pressures.well)


def state_of(
    problem: Problem,
    unknowns: Floats,
    points: Points,
    shape: tuple[int, ...],
    *,
    found: Flows | None = None,
) -> State:
    """Return the state of a network whose unknowns have been found.

    Parameters
    ----------
    problem
        The network.
    unknowns
        Shape (unknowns, points).
    points
        The operating points, the last unknown put in its place.
    shape
        The shape that the points had.
    found
        The flows, if they are known.
    """
    p = pressures(problem, unknowns[:, None, :])
    found = flows(problem, p, points) if found is None else found
    lift = np.asarray(valve_lift(problem.low, p.choke - p.chamber))
    tree = (
        points.speed,
        points.angle,
        points.pressure,
        points.stoichiometric,
        p,
        found,
        lift,
        points.below / PORT_DISCHARGE,
        points.above / PORT_DISCHARGE,
    )
    shown = _shaped(tree, shape, unknowns.shape[1])
    return State._make([*shown, problem.alike, unknowns, None])


def _shaped(tree: Any, shape: tuple[int, ...], count: int) -> Any:
    """Return nested tuples of arrays with the copies' axis gone and the points as they were."""
    if isinstance(tree, tuple):
        parts = [_shaped(each, shape, count) for each in tree]
        return type(tree)(*parts) if hasattr(tree, "_fields") else tuple(parts)
    array = np.asarray(tree)
    if array.shape[-1:] != (count,):
        array = np.broadcast_to(array, (*array.shape[:-1], count))
    if array.ndim == 3:
        return array[:, 0].reshape(array.shape[0], *shape)
    return (array[0] if array.ndim == 2 else array).reshape(shape)
