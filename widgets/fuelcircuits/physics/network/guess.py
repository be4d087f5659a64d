"""First guesses of the network's unknowns, from the air path alone."""

from fuelcircuits.physics.engine import breathing
from fuelcircuits.physics.engine.torque import brake_torque
from fuelcircuits.physics.network.pressures import EACH, SHARED
from fuelcircuits.physics.network.problem import Point, Problem
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.gas_flow import mass_flux

__all__ = ["angle_guess", "first_guess", "speed_guess", "still_guess"]

_ROUGH = 1e-3  # [1], how closely a guess needs the manifold pressure
_WIDEST = 1.3  # rad, beyond which an angle hardly tells


def angle_guess(of: Problem, speed: float, wanted: str, target: float) -> float:
    """Return the angle of a few tried at which the air path alone comes nearest to `target`."""
    closed = of.air_path.throttle_closed_angle
    tried = [closed + (_WIDEST - closed) * stage**1.5 for stage in linspace(0.01, 1.0, 30)]

    def off(angle: float) -> float:
        air = breathing.solve(
            of.engine, of.air_path, of.weather, speed, angle, choke_angle=of.choke_angle
        )
        if wanted == "torque":
            shown = brake_torque(
                of.engine, speed, air.engine_flow, air.manifold_pressure, of.pressure
            )
        else:
            shown = air.engine_flow if wanted == "air flow" else air.manifold_pressure
        return abs(shown - target)

    return min(tried, key=off)


def speed_guess(of: Problem, angle: float, torque: float) -> float:
    """Return the speed of a few tried at which the air path alone comes nearest to a torque."""

    def off(speed: float) -> float:
        air = breathing.solve(
            of.engine, of.air_path, of.weather, speed, angle, choke_angle=of.choke_angle
        )
        made = brake_torque(of.engine, speed, air.engine_flow, air.manifold_pressure, of.pressure)
        return abs(made - torque)

    least, most = 0.5 * of.engine.idle_speed, 1.2 * of.engine.highest_speed
    return min(linspace(least, most, 25), key=off)


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
    air = breathing.solve(
        of.engine,
        of.air_path,
        of.weather,
        at.speed,
        at.angle,
        choke_angle=of.choke_angle,
        tolerance=_ROUGH,
    )
    horn, choke, manifold = air.horn_pressure, air.choke_pressure, air.manifold_pressure
    venturi, booster, above = air.venturi_pressure, air.booster_pressure, air.throttle_pressure
    bowl = horn if of.bowl_pressure is None else of.bowl_pressure
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
