"""A drive: all the moving parts of the carburettor together, through a journey.

The network gives the flows at every instant. Around it move the manifold that fills, the level
in the bowl, the bowl's heat and vapour, the accelerator pump, the film on the intake wall, the
choke with its coil and cam, and the cold-start timer. Each answers to the flows, and the flows
answer to each; the whole journey is gone through again and again until nothing moves any more.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.circuits.bowl_filling import COVER, Filling, fill
from fuelcircuits.physics.circuits.choke import coil_step, fast_idle
from fuelcircuits.physics.circuits.choke_plate import plate_angle
from fuelcircuits.physics.circuits.cold_start import idle_air_open
from fuelcircuits.physics.circuits.float_bowl import steady
from fuelcircuits.physics.circuits.pump import effective_area
from fuelcircuits.physics.circuits.wall_film import FilmRun, film_run
from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.bowl_heat import BowlHeat, bowl_heat, coolant
from fuelcircuits.physics.motion.charge import Charge, charge
from fuelcircuits.physics.motion.journey import Journey, cranked, since_start
from fuelcircuits.physics.motion.plenum import Plenum, breathe, drawn_in, plenum, purged, stepped
from fuelcircuits.physics.motion.pump_shot import PumpRun, pump_run
from fuelcircuits.physics.motion.start import Start
from fuelcircuits.physics.motion.vapour_share import vapour_share
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["Drive", "Start", "drive"]

Floats = NDArray[np.float64]

LIFTED = 0.02
"""Pedal travel past the cam that lets it fall to the next step [rad]."""
SETTLED = 1e-6
"""Change of level [m] and of choke angle [rad] between two rounds that counts as none."""
FULL = 1e-4
"""Change of manifold pressure between two rounds that counts as none [Pa]."""
STRAY = 1.25
"""Factor from which the rates seen at the journey's times do not tell the pump's shot [1]."""
ROUNDS = 40
"""Most rounds through the journey [1]."""


class Drive(NamedTuple):
    """A drive; the first axis of every array runs over time."""

    journey: Journey  # its throttle is the plate's, with the cam under it
    state: State  # the network at each time; its air flow is that into the cylinders
    choke_angle: Floats  # rad
    coil: Floats  # K
    coolant: Floats  # K
    bowl: Filling
    heat: BowlHeat
    pump: PumpRun
    film: FilmRun
    metered: Floats  # kg/s of fuel by all circuits and the pump
    burnable: Floats  # kg/s of fuel that has reached the cylinders as vapour
    delivered_mixture: Floats  # lambda of the metered fuel in the air that it meets [1]
    cylinder_mixture: Floats  # lambda of the fuel and air that the cylinders take [1]
    effective_mixture: Floats  # lambda of the fuel that can burn [1]
    torque: Floats  # N m at the crankshaft
    manifold: Plenum  # at its own times, closer together
    charge: Charge  # at the manifold's times


class _Case(NamedTuple):
    """What stays the same in every round through the journey."""

    rig: Rig
    weather: Weather
    fuel: Fuel
    trip: Journey
    start: Start
    pump: PumpRun
    coolant: Floats
    coil: Floats
    density: float


class _Moving(NamedTuple):
    """What one round through the journey hands to the next."""

    choke_angle: Floats
    level: Floats
    heat: BowlHeat
    vacuum: Floats


def drive(rig: Rig, weather: Weather, fuel: Fuel, trip: Journey, start: Start) -> Drive:
    r"""Drive a journey.

    Parameters
    ----------
    rig
        Every section but canister and cold_start must be there.
    weather
        The air outside; one number each.
    fuel
        The fuel.
    trip
        Throttle and speed in time.
    start
        How warm and wet everything is.

    Returns
    -------
    Drive
        Every part at every time. Fuel into the bowl equals fuel stored, delivered, spilled,
        boiled off and gone into the pump; air into the manifold equals air stored and taken.

    Raises
    ------
    ConvergenceError
        If the network has no balance at some time, or the parts do not settle together.
    RangeError
        If an input is out of range.

    Notes
    -----
    Waveform relaxation: each part is followed through the whole journey with the others as
    the last round left them, until level and choke repeat to a millionth (Lelarasmee, Ruehli
    and Sangiovanni-Vincentelli, IEEE Trans. CAD 1 (1982), pages 131-145). The fuel follows the
    air through throttle and booster, the flame the air into the cylinders; in between both
    stay in the manifold, where they mix. Engine speed is given, not computed.
    """
    case = _case(rig, weather, fuel, trip, start)
    trip, hot = case.trip, case.coolant
    moving, state, bowl, breath = _relax(case)
    covered = np.minimum(bowl.state.level / COVER, 1)
    metered = np.maximum(state.fuel_flow, 0) * covered + _shot(case)
    film = film_run(rig.wall_film, trip.times, metered, hot, mass=start.film)
    mixed = _charge(case, breath, metered)
    reached = np.maximum(mixed.to_cylinder[breath.rows], 1e-9)
    burnable = reached * vapour_share(
        case.rig,
        case.fuel,
        state.air_flow / reached,
        state.pressures.manifold,
        coolant=case.coolant,
        outside=float(case.weather.temperature),
    )
    needed = state.air_flow / state.stoichiometric
    meeting = np.maximum(breath.inflow[breath.rows], 0.0) / state.stoichiometric
    torque = brake_torque(
        rig.engine,
        trip.speed,
        state.air_flow,
        state.pressures.manifold,
        weather.pressure,
        mixture_factor=torque_factor(needed / burnable),
    )
    return Drive(
        journey=trip,
        state=state,
        choke_angle=moving.choke_angle,
        coil=case.coil,
        coolant=hot,
        bowl=bowl,
        heat=moving.heat,
        pump=case.pump,
        film=film,
        metered=metered,
        burnable=burnable,
        delivered_mixture=meeting / np.maximum(metered, 1e-9),
        cylinder_mixture=needed / reached,
        effective_mixture=needed / burnable,
        torque=torque,
        manifold=breath,
        charge=mixed,
    )


def _case(rig: Rig, weather: Weather, fuel: Fuel, trip: Journey, start: Start) -> _Case:
    """Follow what does not depend on the flows: coolant, coil, cam and pump."""
    coil = _coil(rig, weather, trip, start.coil)
    trip = _on_the_cam(rig, trip, plate_angle(rig.choke, rig.air_path, weather, coil))
    density = float(liquid.density(fuel, start.bowl))
    viscosity = float(liquid.viscosity(fuel, start.bowl))
    pump = pump_run(rig.pump, trip.times, trip.throttle, density=density, viscosity=viscosity)
    hot = coolant(rig.hot_soak, trip.times, start.coolant)
    return _Case(rig, weather, fuel, trip, start, pump, hot, coil, density)


def _mean_rate(times: Floats, total: Floats) -> Floats:
    """Return a rate whose straight lines between the times add up to the total again."""
    around = np.concatenate([times[:1], times, times[-1:]])
    risen = np.concatenate([total[:1], total, total[-1:]])
    return np.asarray((risen[2:] - risen[:-2]) / (around[2:] - around[:-2]))


def _shot(case: _Case) -> Floats:
    """Return the pump's flow [kg/s]; straight lines between the times add up to the whole shot.

    Rates seen at the journey's times are put right by one factor. Where that would be large the
    times lie too far apart, and the rates are means over the spans around each.
    """
    whole = case.density * case.pump.delivered
    seen = float(np.trapezoid(case.pump.fuel_flow, case.trip.times))
    if not seen / STRAY < whole[-1] < STRAY * seen:
        return _mean_rate(case.trip.times, whole)
    return np.asarray(case.pump.fuel_flow * (whole[-1] / seen))


def _charge(case: _Case, breath: Plenum, metered: Floats) -> Charge:
    """Follow fuel that the wall lets go and purge air brings through the manifold's air."""
    times = breath.times
    after = np.searchsorted(breath.rows, np.arange(times.size))
    film = film_run(
        case.rig.wall_film,
        times,
        np.interp(times, case.trip.times, metered),
        case.coolant[after],
        mass=case.start.film,
    )
    vapour, first = purged(case.rig, breath, case.start.load)
    came, flow = film.delivered + vapour, float(film.to_cylinder[0]) + first
    return charge(times, came, breath.books.stored, breath.taken, flow)


def _coil(rig: Rig, weather: Weather, trip: Journey, first: float) -> Floats:
    """Return the coil's temperature, heated while the engine runs by itself [K]."""
    running = ~cranked(trip, rig.hot_soak.crank_speed)
    coil = np.full(trip.times.shape, first)
    for i, span in enumerate(np.diff(trip.times)):
        coil[i + 1] = coil_step(rig.choke, coil[i], weather.temperature, span, heated=running[i])
    return coil


def _on_the_cam(rig: Rig, trip: Journey, plate: Floats) -> Journey:
    """Return the journey with the fast-idle cam under the throttle until the pedal lets it fall."""
    stop, held = np.min(trip.throttle), float(fast_idle(rig.choke, plate[0]))
    throttle = np.empty_like(trip.throttle)
    for i, asked in enumerate(trip.throttle):
        if asked > stop + held + LIFTED:
            held = min(held, float(fast_idle(rig.choke, plate[i])))
        throttle[i] = max(asked, stop + held)
    return trip._replace(throttle=np.minimum(throttle, OPEN))


def _relax(case: _Case) -> tuple[_Moving, State, Filling, Plenum]:
    """Go through the journey until level, choke and manifold pressure repeat."""
    trip, card = case.trip, case.rig.float_bowl.depth - case.rig.float_bowl.specified_level
    finer, rows = stepped(trip)
    flat = np.ones(trip.times.shape)
    closed = plate_angle(case.rig.choke, case.rig.air_path, case.weather, case.coil)
    still = BowlHeat(case.start.bowl * flat, case.start.lost_share * flat, 0 * flat, 0 * flat)
    moving, found, change = _Moving(closed, card * flat, still, 0 * flat), None, np.inf
    for _ in range(ROUNDS):
        settings = _between(case, moving, finer.times)
        full = found is not None
        found = breathe(case.rig, case.weather, case.fuel, finer, settings, last=found)
        breath = plenum(case.rig, case.weather, finer.times, rows, found)
        state = drawn_in(found.state, breath)
        fresh, filling = _follow(case, state)
        change = max(
            float(np.max(np.abs(fresh.level - moving.level))),
            float(np.max(np.abs(fresh.choke_angle - moving.choke_angle))),
        )
        moving = fresh
        if full and change < SETTLED and found.change < FULL:
            return moving, state, filling, breath
    raise ConvergenceError(
        f"level, choke and manifold must settle within {ROUNDS} rounds, got last changes of "
        f"{change:g} and {found.change if found else np.inf:g} Pa"
    )


def _between(case: _Case, moving: _Moving, times: Floats) -> Settings:
    """Return the settings at the manifold's times."""

    def at(each: Floats) -> Floats:
        return np.asarray(np.interp(times, case.trip.times, each))

    card = case.rig.float_bowl.depth - case.rig.float_bowl.specified_level
    return Settings(
        choke_angle=at(moving.choke_angle),
        bowl_level=np.clip(at(moving.level) - card, -40e-3, 20e-3),
        vapour=at(moving.heat.vapour),
        idle_enrichment=at(_idle_enrichment(case, moving.vacuum)),
        fuel_temperature=at(moving.heat.temperature),
    )


def _follow(case: _Case, state: State) -> tuple[_Moving, Filling]:
    """Follow choke, heat and level through the journey with the network's flows as they are."""
    rig, trip, pump, start = case.rig, case.trip, case.pump, case.start
    bowl, taken = rig.float_bowl, np.maximum(state.fuel_flow, 0.0)
    heat = bowl_heat(
        rig.hot_soak,
        case.weather,
        case.fuel,
        trip.times,
        fuel_flow=taken,
        coolant=case.coolant,
        mass=case.density * bowl.bowl_area * (bowl.depth - bowl.specified_level),
        start=(start.bowl, start.lost_share),
    )
    usual = steady(bowl, case.fuel, taken[0], temperature=start.bowl)
    chamber = effective_area(rig.pump) * (rig.pump.stroke - pump.plunger) - pump.air
    filling = fill(
        bowl,
        case.fuel,
        taken,
        float(usual.level) if start.level is None else start.level,
        trip.times,
        temperature=start.bowl,
        drawn=case.density * (pump.delivered + chamber - chamber[0]) + heat.boiled,
        grid=1000,
        relative=1e-8,
    )
    angle = plate_angle(
        rig.choke,
        rig.air_path,
        case.weather,
        case.coil,
        state.air_flow,
        vacuum=state.manifold_vacuum,
        throttle_angle=trip.throttle,
    )
    return _Moving(angle, filling.state.level, heat, state.manifold_vacuum), filling


def _idle_enrichment(case: _Case, vacuum: Floats) -> Floats:
    """Return how far the cold-start valve shuts the idle air [1]."""
    if case.rig.cold_start is None:
        return np.zeros(vacuum.shape)
    crank = case.rig.hot_soak.crank_speed
    waited, turning = since_start(case.trip, crank), cranked(case.trip, crank)
    share = idle_air_open(case.rig.cold_start, case.coolant, waited, turning, vacuum=vacuum)
    return np.asarray(1 - share)
