"""First guesses of the network's unknowns, from the air path alone."""

from fuelcircuits.physics.circuits.bowl_vents import Surroundings, bowl_pressure
from fuelcircuits.physics.engine import breathing
from fuelcircuits.physics.engine.air_path import linked_angle, throttle_area
from fuelcircuits.physics.engine.engine import air_demand
from fuelcircuits.physics.engine.torque import brake_torque
from fuelcircuits.physics.network.pressures import EACH, SHARED
from fuelcircuits.physics.network.problem import Point, Problem
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.numerics.root import root
from fuelcircuits.physics.openings.gas_flow import mass_flux
from fuelcircuits.physics.openings.plate import OPEN, angle_for_area, open_area

__all__ = ["angle_guess", "first_guess", "speed_guess", "still_guess"]

_ROUGH = 1e-3  # [1], how closely a guess needs the manifold pressure
_LEAST = 5e3  # Pa, the lowest manifold pressure that is guessed
_PASCALS = 1e5  # Pa, a manifold pressure at which straight lines are read off
_WIDEST = 1.3  # rad, beyond which an angle hardly tells


def angle_guess(of: Problem, speed: float, wanted: str, target: float) -> float:
    """Return the throttle angle [rad] at which the air path alone gives what is wanted.

    Parameters
    ----------
    of, speed
        The network, and the speed [rad/s].
    wanted, target
        As in `fuelcircuits.physics.network.balance.Closing`.
    """
    pressure = min(max(_manifold(of, speed, wanted, target), _LEAST), of.pressure)
    flow = _demand(of, speed, pressure) - of.leak * mass_flux(of.pressure, pressure, of.gas)
    path = breathing.pressures(of.air_path, of.weather, max(flow, 0.0), of.choke_angle)
    least, most = of.air_path.throttle_closed_angle, _WIDEST
    flux = mass_flux(path.throttle, pressure, of.gas) if path.throttle > pressure else 0.0
    if flow >= flux * _throttles(of, most):
        return most
    if flow <= flux * _throttles(of, least):
        return least
    return root(
        lambda angle: flux * _throttles(of, angle) - flow,
        least,
        most,
        name="throttle angle",
        tolerance=_ROUGH,
    )


def _manifold(of: Problem, speed: float, wanted: str, target: float) -> float:
    """Return the manifold pressure [Pa] with which the engine gives what is wanted."""
    if wanted == "manifold pressure":
        return target
    none, some = (_shown(of, speed, pressure, wanted) for pressure in (0.0, _PASCALS))
    return _PASCALS * (target - none) / (some - none)


def _shown(of: Problem, speed: float, pressure: float, wanted: str) -> float:
    """Return the air flow [kg/s] or the torque [N m] at a manifold pressure."""
    flow = _demand(of, speed, pressure)
    if wanted == "air flow":
        return flow
    return brake_torque(of.engine, speed, flow, pressure, of.pressure)


def _demand(of: Problem, speed: float, pressure: float) -> float:
    """Return the air that the engine takes [kg/s]."""
    return air_demand(of.engine, speed, pressure, of.charge_temperature, of.pressure)


def speed_guess(of: Problem, angle: float, torque: float) -> float:
    """Return the speed [rad/s] at which the air path alone gives a torque.

    Where several do it is the highest, beyond which the torque falls; where none does, that of
    a few tried which comes nearest.
    """

    def surplus(speed: float) -> float:
        air = _air(of, speed, angle)
        made = brake_torque(of.engine, speed, air.engine_flow, air.manifold_pressure, of.pressure)
        return made - torque

    tried = linspace(0.5 * of.engine.idle_speed, 1.2 * of.engine.highest_speed, 8)
    shown = [surplus(speed) for speed in tried]
    for k in range(len(tried) - 1, 0, -1):
        if shown[k - 1] > 0.0 > shown[k]:
            return root(surplus, tried[k - 1], tried[k], name="speed", tolerance=0.02)
    return min(zip(tried, shown, strict=True), key=lambda pair: abs(pair[1]))[0]


def _air(of: Problem, speed: float, angle: float) -> breathing.AirState:
    """Return what the air does without the circuits, roughly."""
    return breathing.solve(
        of.engine,
        of.air_path,
        of.weather,
        speed,
        _alike(of, angle),
        choke_angle=of.choke_angle,
        tolerance=_ROUGH,
    )


def _throttles(of: Problem, angle: float) -> float:
    """Return the effective area past all throttle plates, the first barrel's at `angle`."""
    areas = (
        throttle_area(one.path, linked_angle(one.path, angle)) / one.path.barrels
        for one in of.barrels
    )
    return of.alike * sum(areas)


def _alike(of: Problem, angle: float) -> float:
    """Return the angle at which plates all like the first would leave as much open."""
    path = of.air_path
    if all(one.path is path for one in of.barrels):
        return angle
    bore, shaft, closed = path.throttle_bore, path.throttle_shaft, path.throttle_closed_angle
    single = _throttles(of, angle) / (path.barrels * path.throttle_discharge) - path.throttle_leak
    most = (1.0 - _ROUGH) * open_area(bore, shaft, closed, OPEN)
    return angle_for_area(bore, shaft, closed, min(max(single, 0.0), most))


def first_guess(of: Problem, at: Point) -> list[float]:
    """Return a first guess of the pressures [Pa].

    Parameters
    ----------
    of, at
        The network and its point.

    Notes
    -----
    The air path is solved without the circuits; the pressures in those are then rough shares
    of the depressions it has. What they are does not change an answer.
    """
    air = _air(of, at.speed, at.angle)
    horn, choke, manifold = air.horn_pressure, air.choke_pressure, air.manifold_pressure
    venturi, booster, above = air.venturi_pressure, air.booster_pressure, air.throttle_pressure
    bowl = _bowl(of, at, horn)
    guess = [horn, choke, manifold, bowl]
    flux = mass_flux(above, manifold, of.gas) if above > manifold else 0.0
    for barrel, slot in zip(of.barrels, at.slots, strict=True):
        leaving = 1.5 * flux * (slot.below + barrel.port)
        entering = slot.above + 1.5 * barrel.economizer
        drawn = (leaving / entering) ** 2 * of.gas / (2.0 * above)
        chamber = above - min(drawn, 3000.0, 0.7 * (above - manifold))
        mix = above - min(0.4 * (above - chamber), 1000.0)
        lip = booster + of.weight * barrel.high.lip
        well = min(bowl - 0.08 * (choke - mix) - 10.0, lip + 0.3 * (bowl - booster))
        tube = min(horn - 1.0, well + 1.5 * of.weight * barrel.high.first_hole)
        guess += [venturi, well, tube, mix, chamber]
    return guess


def _bowl(of: Problem, at: Point, horn: float) -> float:
    """Return the bowl pressure [Pa] if no air came through the jets."""
    if of.bowl_pressure is not None:
        return of.bowl_pressure
    around = Surroundings(
        horn, of.pressure, at.angle, of.ignition, of.vapour, of.temperature, of.canister
    )
    return bowl_pressure(of.vents, around)


def still_guess(guess: list[float]) -> list[float]:
    """Return another guess: nothing flows in the circuits.

    Parameters
    ----------
    guess
        Unknowns as `first_guess` gives them, with or without a last one that is free.
    """
    other = guess.copy()
    horn, choke, _, bowl = guess[: len(SHARED)]
    for first in range(len(SHARED), len(guess) - len(EACH) + 1, len(EACH)):
        other[first + 1 : first + len(EACH)] = [bowl - 5.0, horn - 1.0, choke - 30.0, choke - 60.0]
    return other
