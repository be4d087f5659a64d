"""The bowl while the engine runs: level, temperature, and the vapour it makes."""

from typing import NamedTuple

from fuelcircuits.physics.circuits.bowl_filling import COVER, inlet_curve
from fuelcircuits.physics.circuits.float_lever import FloatBowl, Supply
from fuelcircuits.physics.circuits.hot_soak import LIQUID_HEAT
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.boiling import Boiler, boiling
from fuelcircuits.physics.motion.rising import rising

__all__ = ["Bowl", "Filled", "bowl_level", "bowl_vapour", "bowl_warmth"]

LEVELS = 200
"""Levels at which the needle's flow is worked out beforehand [1]; off by less than 2 um."""


class Bowl(NamedTuple):
    """A bowl at one instant."""

    level: float  # m above the floor
    temperature: float  # K
    lost: float = 0.0  # share of its fuel that has boiled off and not been made good [1]
    vapour: float = 0.0  # kg/s


class Filled(NamedTuple):
    """A bowl's level after a step, and what has passed meanwhile."""

    level: float  # m
    inflow: float  # kg/s
    covered: float  # share of what the jets ask for that they get [1]
    spilled: float  # kg/s, run over


def bowl_level(
    bowl: FloatBowl,
    supply: Supply,
    level: float,
    *,
    asked: float,
    away: float,
    duration: float,
    pumping: bool = True,
) -> Filled:
    r"""Return the level after a step.

    .. math:: \rho A \frac{h_1 - h_0}{\Delta t} = \dot m_{in}(h_1) - c(h_1)\, \dot m_{jets}
              - \dot m_{away} - \dot m_{over}(h_1)

    Parameters
    ----------
    bowl, supply
        The float bowl, and the fuel before its inlet.
    level
        Level h above the floor at the start [m].
    asked
        Fuel that the jets ask for [kg/s]; they get the share c, which fades over the last
        millimetre above the floor.
    away
        Fuel that leaves in other ways [kg/s]: to the pump's chamber, and as vapour.
    duration
        Length of the step [s].
    pumping
        Whether the fuel pump turns.

    Returns
    -------
    Filled
        Level and flows, whose balance closes to rounding.

    Notes
    -----
    First principles, by Euler's implicit rule, with the float in balance at every instant:
    `fuelcircuits.physics.circuits.bowl_filling`.
    """
    inlet = inlet_curve(bowl, supply, LEVELS) if pumping else _shut
    weight = bowl.bowl_area * supply.density / duration

    def covered(height: float) -> float:
        return min(height / COVER, 1.0)

    def over(height: float, inflow: float) -> float:
        full = min(max(1.0 - (bowl.depth - height) / COVER, 0.0), 1.0)
        return full * max(inflow - asked, 0.0)

    def surplus(height: float) -> float:
        inflow = inlet(height)
        leaving = covered(height) * asked + away + over(height, inflow)
        return weight * (height - level) - inflow + leaving

    height = rising(surplus, level, weight, 0.0, bowl.depth, name="bowl level", tolerance=1e-9)
    spilled = over(height, inlet(height))
    leaving = covered(height) * asked + away + spilled
    return Filled(height, weight * (height - level) + leaving, covered(height), spilled)


def _shut(_level: float) -> float:
    """Return what comes in while the fuel pump stands [kg/s]."""
    return 0.0


def bowl_warmth(
    boiler: Boiler,
    weather: Weather,
    fuel: Fuel,
    bowl: Bowl,
    *,
    mass: float,
    fuel_flow: float,
    coolant: float,
    duration: float,
) -> Bowl:
    r"""Return a bowl whose temperature and vapour are a step on.

    .. math::
        C \frac{dT}{dt} &= G_b (T_c - T) - (G_c + c\, \dot m_f)(T - T_a) - L \dot m_v \\
        m \frac{df}{dt} &= \dot m_v - f \dot m_f

    The conductance G\ :sub:`c` to the passing air follows from the rise `bowl_rise` that the
    bowl of a warm engine keeps at idle. Fresh fuel comes in at the temperature outside.

    Parameters
    ----------
    boiler
        Heat paths and rates, and the vents as they stand.
    weather
        The air outside.
    fuel
        The fuel.
    bowl
        Temperature T, lost share f and vapour at the start.
    mass
        Fuel in the bowl m [kg], positive.
    fuel_flow
        Fuel through the bowl [kg/s].
    coolant
        Coolant temperature T\ :sub:`c` [K].
    duration
        Length of the step [s].

    Returns
    -------
    Bowl
        Temperature, lost share, and the vapour that it makes then.

    Notes
    -----
    First principles for one lump, by Euler's implicit rule with the vapour of the start.
    """
    soak, air = boiler.soak, weather.temperature
    away = max(soak.block_temperature - air - soak.bowl_rise, 0.0)
    loss = soak.block_to_bowl * away / max(soak.bowl_rise, 1.0) + LIQUID_HEAT * fuel_flow
    store = (soak.bowl_heat + LIQUID_HEAT * mass) / duration
    latent = bowl.vapour * liquid.heat_of_vaporisation(fuel)
    gain = soak.block_to_bowl * coolant + loss * air - latent
    after = bowl._replace(
        temperature=(store * bowl.temperature + gain) / (store + soak.block_to_bowl + loss),
        lost=(bowl.lost + duration * bowl.vapour / mass) / (1.0 + duration * fuel_flow / mass),
    )
    return after._replace(vapour=bowl_vapour(boiler, after))


def bowl_vapour(boiler: Boiler, bowl: Bowl) -> float:
    """Return the vapour that a bowl makes [kg/s].

    Parameters
    ----------
    boiler, bowl
        As in `bowl_warmth`.

    References
    ----------
    `fuelcircuits.physics.motion.boiling`: it boils against the pressure that its own vapour
    needs to leave by the vents, so that a bowl whose vents are blocked stops boiling.
    """
    return boiling(boiler, bowl.temperature, bowl.lost)[0]
