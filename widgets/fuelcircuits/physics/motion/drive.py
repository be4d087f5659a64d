"""A drive: all the moving parts of the carburettor together, through a journey.

The network gives the flows at every instant. Around it move the manifold that fills, the level
in the bowl, the bowl's heat and vapour, the accelerator pump, the film on the intake wall, the
choke with its coil and cam, and the cold-start timer. Each answers to the flows, and the flows
answer to each; the whole journey is gone through again and again until nothing moves any more.
"""

from bisect import bisect_left
from collections.abc import Sequence
from typing import NamedTuple

from fuelcircuits.physics.circuits.bowl_filling import COVER, Filling
from fuelcircuits.physics.circuits.wall_film import FilmRun, film_run
from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.bowl_heat import BowlHeat
from fuelcircuits.physics.motion.charge import Charge, charge
from fuelcircuits.physics.motion.journey import Journey
from fuelcircuits.physics.motion.plenum import Plenum, drawn_in, purged
from fuelcircuits.physics.motion.pump_shot import PumpRun
from fuelcircuits.physics.motion.rounds import Case, case_of, relaxed
from fuelcircuits.physics.motion.start import Start
from fuelcircuits.physics.motion.vapour_share import vapour_share
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import interpolate

__all__ = ["Drive", "Start", "drive"]

STRAY = 1.25
"""Factor from which the rates seen at the journey's times do not tell the pump's shot [1]."""
LEAST = 1e-9
"""Fuel flow that keeps a mixture defined [kg/s]."""


class Drive(NamedTuple):
    """A drive; every list runs over time."""

    journey: Journey  # its throttle is the plate's, with the cam under it
    states: list[State]  # the network; its air flow is that into the cylinders
    choke_angle: list[float]  # rad
    coil: list[float]  # K
    coolant: list[float]  # K
    bowl: Filling
    heat: BowlHeat
    pump: PumpRun
    film: FilmRun
    metered: list[float]  # kg/s of fuel by all circuits and the pump
    burnable: list[float]  # kg/s of fuel that has reached the cylinders as vapour
    delivered_mixture: list[float]  # lambda of the metered fuel in the air that it meets [1]
    cylinder_mixture: list[float]  # lambda of the fuel and air that the cylinders take [1]
    effective_mixture: list[float]  # lambda of the fuel that can burn [1]
    torque: list[float]  # N m at the crankshaft
    manifold: Plenum  # at its own times, closer together
    charge: Charge  # at the manifold's times


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
    case = case_of(rig, weather, fuel, trip, start)
    last, bowl, manifold = relaxed(case)
    states = drawn_in(manifold)
    metered = [
        max(state.fuel_flow, 0.0) * min(level / COVER, 1.0) + shot
        for state, level, shot in zip(states, bowl.level, _shot(case), strict=True)
    ]
    mixed = _charge(case, manifold, metered)
    burning = [_burning(case, at, state, manifold, mixed) for at, state in enumerate(states)]
    return Drive(
        journey=case.trip,
        states=states,
        choke_angle=last.choke_angle,
        coil=case.coil,
        coolant=case.coolant,
        bowl=bowl,
        heat=last.heat,
        pump=case.pump,
        film=film_run(rig.wall_film, case.trip.times, metered, case.coolant, mass=start.film),
        metered=metered,
        burnable=[each.burnable for each in burning],
        delivered_mixture=[
            each.meeting / max(flow, LEAST) for each, flow in zip(burning, metered, strict=True)
        ],
        cylinder_mixture=[each.needed / each.reached for each in burning],
        effective_mixture=[each.needed / each.burnable for each in burning],
        torque=[each.torque for each in burning],
        manifold=manifold,
        charge=mixed,
    )


class _Burning(NamedTuple):
    """What meets in the cylinders at one time."""

    reached: float  # kg/s of fuel
    burnable: float  # kg/s of it as vapour
    needed: float  # kg/s of fuel that their air would just burn
    meeting: float  # kg/s of fuel that the air past the throttle would just burn
    torque: float  # N m


def _burning(case: Case, at: int, state: State, manifold: Plenum, mixed: Charge) -> _Burning:
    """Return what burns at one of the journey's times."""
    row, pressure, weather = manifold.rows[at], state.pressures.manifold, case.weather
    reached, needed = max(mixed.to_cylinder[row], LEAST), state.air_flow / state.stoichiometric
    burnable = reached * vapour_share(
        case.rig,
        case.fuel,
        state.air_flow / reached,
        pressure,
        coolant=case.coolant[at],
        outside=weather.temperature,
    )
    torque = brake_torque(
        case.rig.engine,
        case.trip.speed[at],
        state.air_flow,
        pressure,
        weather.pressure,
        mixture_factor=torque_factor(needed / burnable),
    )
    meeting = max(manifold.inflow[row], 0.0) / state.stoichiometric
    return _Burning(reached, burnable, needed, meeting, torque)


def _mean_rate(times: Sequence[float], total: Sequence[float]) -> list[float]:
    """Return a rate whose straight lines between the times add up to the total again."""
    around = [times[0], *times, times[-1]]
    risen = [total[0], *total, total[-1]]
    return [(risen[i + 2] - risen[i]) / (around[i + 2] - around[i]) for i in range(len(times))]


def _shot(case: Case) -> list[float]:
    """Return the pump's flow [kg/s]; straight lines between the times add up to the whole shot.

    Rates seen at the journey's times are put right by one factor. Where that would be large the
    times lie too far apart, and the rates are means over the spans around each.
    """
    times, flow = case.trip.times, case.pump.fuel_flow
    given = [case.density * each for each in case.pump.delivered]
    seen = sum(
        0.5 * (times[i] - times[i - 1]) * (flow[i] + flow[i - 1]) for i in range(1, len(times))
    )
    if not seen / STRAY < given[-1] < STRAY * seen:
        return _mean_rate(times, given)
    return [each * (given[-1] / seen) for each in flow]


def _charge(case: Case, manifold: Plenum, metered: list[float]) -> Charge:
    """Follow fuel that the wall lets go and purge air brings through the manifold's air."""
    times = manifold.times
    film = film_run(
        case.rig.wall_film,
        times,
        [interpolate(now, case.trip.times, metered) for now in times],
        [case.coolant[bisect_left(manifold.rows, step)] for step in range(len(times))],
        mass=case.start.film,
    )
    vapour, first = purged(case.rig, manifold, case.start.load)
    came = [wall + bed for wall, bed in zip(film.delivered, vapour, strict=True)]
    return charge(times, came, manifold.books.stored, manifold.taken, film.to_cylinder[0] + first)
