"""The rounds through a journey, until the parts that answer to each other agree.

The network gives the flows at every instant. Level, bowl heat and choke follow from them, and
the flows from these; what does not depend on the flows is followed once, in `Case`.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.circuits.bowl_filling import Filling, fill
from fuelcircuits.physics.circuits.choke import coil_step, fast_idle
from fuelcircuits.physics.circuits.choke_plate import plate_angle
from fuelcircuits.physics.circuits.cold_start import idle_air_open
from fuelcircuits.physics.circuits.float_bowl import steady
from fuelcircuits.physics.circuits.pump import effective_area
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.bowl_heat import BowlHeat, bowl_heat, coolant
from fuelcircuits.physics.motion.journey import Journey, cranked, since_start
from fuelcircuits.physics.motion.plenum import Plenum, breathe, drawn_in, stepped
from fuelcircuits.physics.motion.pump_shot import PumpRun, pump_run
from fuelcircuits.physics.motion.start import Start
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import interpolate
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["Case", "Round", "case_of", "relaxed"]

LIFTED = 0.02
"""Pedal travel past the cam that lets it fall to the next step [rad]."""
SETTLED: Mapping[str, float] = {"level": 1e-6, "choke_angle": 1e-6, "vacuum": 1e-2}
"""Changes of level [m], choke angle [rad] and manifold vacuum [Pa] that count as none."""
ROUNDS = 40
"""Most rounds through the journey [1]."""


class Case(NamedTuple):
    """What stays the same in every round through the journey."""

    rig: Rig
    weather: Weather
    fuel: Fuel
    trip: Journey
    start: Start
    pump: PumpRun
    coolant: list[float]
    coil: list[float]
    density: float

    @property
    def card_level(self) -> float:
        """Level that the card asks for, above the bowl's floor [m]."""
        return self.rig.float_bowl.depth - self.rig.float_bowl.specified_level


class Round(NamedTuple):
    """What one round through the journey hands to the next."""

    choke_angle: list[float]  # rad
    level: list[float]  # m above the bowl's floor
    vacuum: list[float]  # Pa
    heat: BowlHeat


def case_of(rig: Rig, weather: Weather, fuel: Fuel, trip: Journey, start: Start) -> Case:
    """Return a case, with coolant, coil, cam and pump followed through the journey."""
    coil = _coil(rig, weather, trip, start.coil)
    plate = [plate_angle(rig.choke, rig.air_path, weather, each) for each in coil]
    trip = _on_the_cam(rig, trip, plate)
    density = liquid.density(fuel, start.bowl)
    viscosity = liquid.viscosity(fuel, start.bowl)
    pump = pump_run(rig.pump, trip.times, trip.throttle, density=density, viscosity=viscosity)
    hot = [coolant(rig.hot_soak, now - trip.times[0], start.coolant) for now in trip.times]
    return Case(rig, weather, fuel, trip, start, pump, hot, coil, density)


def _coil(rig: Rig, weather: Weather, trip: Journey, first: float) -> list[float]:
    """Return the coil's temperature, heated while the engine runs by itself [K]."""
    turning, coil = cranked(trip, rig.hot_soak.crank_speed), [first]
    for i in range(1, len(trip.times)):
        span, running = trip.times[i] - trip.times[i - 1], not turning[i - 1]
        coil.append(coil_step(rig.choke, coil[-1], weather.temperature, span, heated=running))
    return coil


def _on_the_cam(rig: Rig, trip: Journey, plate: list[float]) -> Journey:
    """Return the journey with the fast-idle cam under the throttle until the pedal lets it fall."""
    stop, held, throttle = min(trip.throttle), fast_idle(rig.choke, plate[0]), []
    for asked, angle in zip(trip.throttle, plate, strict=True):
        if asked > stop + held + LIFTED:
            held = min(held, fast_idle(rig.choke, angle))
        throttle.append(min(max(asked, stop + held), OPEN))
    return trip._replace(throttle=throttle)


def relaxed(case: Case) -> tuple[Round, Filling, Plenum]:
    """Go through the journey until level, choke and manifold vacuum repeat.

    Raises
    ------
    ConvergenceError
        If they do not, or the network has no balance at some time.
    """
    steps = stepped(case.trip)
    last, near, moved = _first(case), list[State](), dict[str, float]()
    for _ in range(ROUNDS):
        settings = _settings(case, last, steps.trip.times)
        manifold = breathe(case.rig, case.weather, case.fuel, steps, settings, near=near)
        fresh, bowl = _follow(case, drawn_in(manifold))
        moved = {name: _apart(getattr(fresh, name), getattr(last, name)) for name in SETTLED}
        if all(moved[name] < least for name, least in SETTLED.items()):
            return fresh, bowl, manifold
        last, near = fresh, manifold.states
    raise ConvergenceError(f"parts must settle within {ROUNDS} rounds, got last changes {moved}")


def _apart(one: Sequence[float], other: Sequence[float]) -> float:
    return max(abs(a - b) for a, b in zip(one, other, strict=True))


def _first(case: Case) -> Round:
    """Return a first guess: level, choke and bowl as they are without any flow."""
    count, rig = len(case.trip.times), case.rig
    closed = [plate_angle(rig.choke, rig.air_path, case.weather, each) for each in case.coil]
    temperature, lost = [case.start.bowl] * count, [case.start.lost_share] * count
    still = BowlHeat(temperature, lost, [0.0] * count, [0.0] * count)
    return Round(closed, [case.card_level] * count, [0.0] * count, still)


def _settings(case: Case, last: Round, times: Sequence[float]) -> list[Settings]:
    """Return the settings at the manifold's times."""
    rows = (
        last.choke_angle,
        [min(max(each - case.card_level, -40e-3), 20e-3) for each in last.level],
        last.heat.vapour,
        _idle_enrichment(case, last.vacuum),
        last.heat.temperature,
    )
    found = []
    for now in times:
        choke, level, vapour, shut, warmth = (
            interpolate(now, case.trip.times, row) for row in rows
        )
        found.append(
            Settings(
                choke_angle=choke,
                bowl_level=level,
                vapour=vapour,
                idle_enrichment=shut,
                fuel_temperature=warmth,
            )
        )
    return found


def _follow(case: Case, states: list[State]) -> tuple[Round, Filling]:
    """Follow choke, heat and level through the journey with the network's flows as they are."""
    taken = [max(state.fuel_flow, 0.0) for state in states]
    heat = _heat(case, taken)
    bowl = _filling(case, taken, heat)
    vacuum = [state.manifold_vacuum for state in states]
    choke = [
        plate_angle(
            case.rig.choke,
            case.rig.air_path,
            case.weather,
            coil,
            state.air_flow,
            vacuum=state.manifold_vacuum,
            throttle_angle=throttle,
        )
        for coil, state, throttle in zip(case.coil, states, case.trip.throttle, strict=True)
    ]
    return Round(choke, bowl.level, vacuum, heat), bowl


def _heat(case: Case, taken: list[float]) -> BowlHeat:
    return bowl_heat(
        case.rig.hot_soak,
        case.weather,
        case.fuel,
        case.trip.times,
        fuel_flow=taken,
        coolant=case.coolant,
        mass=case.density * case.rig.float_bowl.bowl_area * case.card_level,
        start=(case.start.bowl, case.start.lost_share),
    )


def _filling(case: Case, taken: list[float], heat: BowlHeat) -> Filling:
    """Follow the level; the pump's chamber and the vapour take fuel besides the engine."""
    bowl, start, pump = case.rig.float_bowl, case.start, case.pump
    area, stroke = effective_area(case.rig.pump), case.rig.pump.stroke
    gone = [
        given + area * (stroke - down) - air
        for given, down, air in zip(pump.delivered, pump.plunger, pump.air, strict=True)
    ]
    drawn = [
        case.density * (each - area * (stroke - pump.plunger[0]) + pump.air[0]) + boiled
        for each, boiled in zip(gone, heat.boiled, strict=True)
    ]
    level = start.level
    if level is None:
        level = steady(bowl, case.fuel, taken[0], temperature=start.bowl).level
    return fill(
        bowl,
        case.fuel,
        taken,
        level,
        case.trip.times,
        temperature=start.bowl,
        drawn=drawn,
        grid=1000,
        relative=1e-8,
    )


def _idle_enrichment(case: Case, vacuum: list[float]) -> list[float]:
    """Return how far the cold-start valve shuts the idle air [1]."""
    if case.rig.cold_start is None:
        return [0.0] * len(vacuum)
    crank = case.rig.hot_soak.crank_speed
    rows = zip(
        case.coolant, since_start(case.trip, crank), cranked(case.trip, crank), vacuum, strict=True
    )
    return [
        1 - idle_air_open(case.rig.cold_start, warm, waited, turning, vacuum=felt)
        for warm, waited, turning, felt in rows
    ]
