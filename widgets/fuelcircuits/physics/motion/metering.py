"""Fuel out of the bowl and into the air: pump, wells and jets, and the bowl that feeds them."""

from fuelcircuits.physics.circuits.float_lever import supply_to
from fuelcircuits.physics.circuits.pump import rod_position
from fuelcircuits.physics.motion.bowl import bowl_level, bowl_warmth
from fuelcircuits.physics.motion.crank import REST
from fuelcircuits.physics.motion.moving import Car, Motion, chamber_fuel
from fuelcircuits.physics.motion.pump_shot import pump_step
from fuelcircuits.physics.motion.settings import boiler_of, fuel_density, fuel_inside
from fuelcircuits.physics.motion.well import WellStep, well_depths, well_step

__all__ = ["metered", "pumped"]

DREGS = 1e-4
"""Depth of fuel whose heat is counted in an empty bowl [m]."""


def pumped(car: Car, now: Motion, duration: float) -> tuple[Motion, float]:
    """Return everything with the pump a step on, and what it has taken from the bowl [kg/s]."""
    pump, inside = car.rig.pump, fuel_inside(car, now)
    rod, pulled = rod_position(pump, now.throttle), 0.0
    if now.air.asked:
        pulled = now.network.pressures.bowl - now.network.pressures.choke
    after = pump_step(pump, now.pump, rod, duration, inside, depression=pulled)
    given = after.given - now.pump.given
    taken = given + chamber_fuel(pump, after) - chamber_fuel(pump, now.pump)
    flow = inside.density / duration
    return now._replace(pump=after, shot=flow * given), flow * taken


def metered(car: Car, now: Motion, taken: float, duration: float, *, ignition: bool) -> Motion:
    """Return everything with wells and bowl a step on, and what the carburettor gives."""
    bowl, fuel = car.rig.float_bowl, car.fuel
    supply = supply_to(bowl, fuel, None, car.weather.temperature, 0.0)
    wells = _wells(car, now, duration)
    alike = car.rig.air_path.barrels / len(wells)
    extra, refill = (
        alike * sum(each) for each in ([w.extra for w in wells], [w.refill for w in wells])
    )
    filled = bowl_level(
        bowl,
        supply,
        now.bowl.level,
        asked=now.air.asked,
        away=taken + refill + now.bowl.vapour,
        duration=duration,
        pumping=now.speed >= REST,
    )
    jets = filled.covered * now.air.asked
    warmed = bowl_warmth(
        boiler_of(car, now, ignition=ignition),
        car.weather,
        fuel,
        now.bowl._replace(level=filled.level),
        mass=supply.density * bowl.bowl_area * max(filled.level, DREGS),
        fuel_flow=jets,
        coolant=now.coolant,
        duration=duration,
    )
    given = jets + extra + now.shot
    books = now.books.after(
        duration,
        bowl_in=filled.inflow,
        jets=jets + refill,
        pumped=taken,
        boiled=now.bowl.vapour,
        spilled=filled.spilled,
        metered=given,
    )
    depths = tuple(each.depth for each in wells)
    return now._replace(wells=depths, bowl=warmed, metered=given, books=books)


def _wells(car: Car, now: Motion, duration: float) -> list[WellStep]:
    """Return the well of each barrel told apart a step on."""
    density = fuel_density(car, now)
    rigs = [car.rig, car.other] if car.other else [car.rig]
    circuits = [rig.high_speed or car.rig.high_speed for rig in rigs]
    settled = well_depths(circuits, now.network, density)
    nozzles = now.network.flows.nozzle.fuel if now.air.asked else [0.0] * len(settled)
    return [
        well_step(circuit, depth, there, nozzle, density=density, duration=duration)
        for circuit, depth, there, nozzle in zip(circuits, now.wells, settled, nozzles, strict=True)
    ]
