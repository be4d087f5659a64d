"""What a solved carburettor shows: every flow and pressure, and the readings made of them."""

from collections.abc import Iterable
from typing import Any, NamedTuple

from fuelcircuits.physics.circuits.off_idle import valve_lift
from fuelcircuits.physics.network.balance import Flowing
from fuelcircuits.physics.network.flows import Flows
from fuelcircuits.physics.network.pressures import Pressures, pressures
from fuelcircuits.physics.network.problem import PORT_DISCHARGE, Problem
from fuelcircuits.physics.network.stream import Stream

__all__ = ["LEANEST", "State", "state_of"]

Row = tuple[float, ...]

LEANEST = 1e6
"""Air-fuel ratio [1] that stands for any leaner one, and for no fuel at all."""


class State(NamedTuple):
    """A solved network.

    What belongs to a barrel is a row of numbers: one where the barrels are alike, two where
    they differ.
    """

    speed: float  # rad/s
    throttle_angle: float  # rad
    ambient_pressure: float  # Pa
    stoichiometric: float  # kg of the moist air that just burn a kilogram of fuel
    pressures: Pressures[Row]
    flows: Flows[Row]
    valve_lift: Row  # share of the off-idle bleed valve's lift [1]
    slot_below: Row  # m2, one barrel's idle port below the edge of the plate
    slot_above: Row  # m2, above it
    alike: float  # real barrels for each number of a row
    unknowns: list[float]  # a start for another solve
    inverse: list[list[float]] | None = None  # Pa s/kg, of the balance's slopes, for the same

    def all_barrels(self, flow: Iterable[float]) -> float:
        """Return a barrel's flow added up over all barrels."""
        return self.alike * sum(flow)

    @property
    def air_flow(self) -> float:
        """Air into the engine [kg/s]."""
        return self.flows.engine

    @property
    def fuel_flow(self) -> float:
        """Fuel out of the bowl by the main jets [kg/s]."""
        return self.all_barrels(self.flows.main_jet)

    @property
    def fuel_air_ratio(self) -> float:
        """Fuel for each kilogram of air [1]; nought but for rounding if the wells are empty."""
        return self.fuel_flow / self.air_flow

    @property
    def ratio(self) -> float:
        """Air-fuel ratio by mass [1]; `LEANEST` where it is that or leaner, or no fuel flows."""
        return 1.0 / max(self.fuel_air_ratio, 1.0 / LEANEST)

    @property
    def mixture(self) -> float:
        """Lambda: air over the air needed [1]."""
        return self.ratio / self.stoichiometric

    @property
    def fuel_by_circuit(self) -> dict[str, float]:
        """Fuel by the way it leaves, all barrels together [kg/s].

        "spill" is what spits out of an air bleed into the horn or the bore.
        """
        f, total = self.flows, self.all_barrels
        return {
            "nozzle": total(f.nozzle.fuel),
            "slot": total(f.slot_below.fuel) - total(f.slot_above.fuel),
            "screw": total(f.screw.fuel),
            "spill": -total(f.bypass.fuel) - total(f.idle_air.fuel) - total(f.valve.fuel),
        }

    @property
    def power_fuel(self) -> float:
        """The part of the fuel that the metering rods have added [kg/s]."""
        f = self.flows
        return self.all_barrels(map(float.__mul__, f.main_jet, f.power_share))

    @property
    def manifold_vacuum(self) -> float:
        """Ambient less manifold pressure [Pa]."""
        return self.ambient_pressure - self.pressures.manifold

    @property
    def chamber_vacuum(self) -> Row:
        """Ambient pressure less that of the idle-port chamber [Pa], barrel by barrel."""
        return tuple(self.ambient_pressure - each for each in self.pressures.chamber)

    @property
    def booster_depression(self) -> Row:
        """Horn pressure less that in the booster's throat [Pa], barrel by barrel."""
        return tuple(self.pressures.horn - each for each in self.pressures.booster)


def state_of(
    of: Problem, unknowns: list[float], flowing: Flowing, inverse: list[list[float]] | None
) -> State:
    """Return the state of a network whose unknowns have been found.

    Parameters
    ----------
    of
        The network.
    unknowns, flowing
        Those found, and the flows there.
    inverse
        Of the balance's slopes, if it is known.
    """
    at, slots = flowing.at, flowing.at.slots
    each = [pressures(of, unknowns, barrel) for barrel in range(len(of.barrels))]
    flows = [[flow for group in own for flow in group] for own in flowing.each]
    lifts = (valve_lift(one.low, p[1] - p[8]) for one, p in zip(of.barrels, each, strict=True))
    return State(
        speed=at.speed,
        throttle_angle=at.angle,
        ambient_pressure=of.pressure,
        stoichiometric=of.stoichiometric,
        pressures=Pressures(*each[0][:4], *zip(*[met[4:] for met in each], strict=True)),
        flows=Flows(*flowing.shared, *map(_row, *flows)),
        valve_lift=tuple(lifts),
        slot_below=tuple([slot.below / PORT_DISCHARGE for slot in slots]),
        slot_above=tuple([slot.above / PORT_DISCHARGE for slot in slots]),
        alike=of.alike,
        unknowns=unknowns,
        inverse=inverse,
    )


def _row(*each: Any) -> Any:
    """Return a flow of every barrel as a row, a stream as one of two rows."""
    return Stream._make(zip(*each, strict=True)) if isinstance(each[0], tuple) else each
