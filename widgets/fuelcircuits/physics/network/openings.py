"""What passes an opening of the network."""

from fuelcircuits.physics.network.problem import Problem
from fuelcircuits.physics.network.stream import Pair
from fuelcircuits.physics.openings.gas_flow import flow_through
from fuelcircuits.physics.openings.two_phase import mass_flux, specific_volume

__all__ = ["drawn", "mixture", "mouth", "uncovered", "volume"]

_STILL = 0.0, 0.0


def drawn(of: Problem, area: float, outside: float, inside: float) -> float:
    """Return the air that an opening draws in [kg/s], nought where it blows out.

    Parameters
    ----------
    of
        The network.
    area
        Effective area [m2].
    outside, inside
        Absolute pressures at its ends [Pa].

    References
    ----------
    `fuelcircuits.physics.openings.gas_flow`; where fuel passes too, `two_phase` beside it.
    """
    return flow_through(area, outside, inside, of.gas) if outside > inside else 0.0


def mixture(of: Problem, area: float, share: float, first: float, second: float) -> Pair:
    """Return air and fuel through an opening [kg/s], from the first pressure to the second.

    Parameters
    ----------
    of, area
        As in `drawn`.
    share
        Fuel in a kilogram of what passes [1].
    first, second
        Absolute pressures at its ends [Pa].
    """
    if not area or first == second:
        return _STILL
    total = area * mass_flux(share, first, second, of.gas, of.density)
    fuel = share * total
    return total - fuel, fuel


def mouth(of: Problem, drive: float) -> float:
    """Return the share of a mouth that is open: a weir until the fuel's surface has crossed it.

    Parameters
    ----------
    of
        The network.
    drive
        Pressure that pushes the surface past the mouth [Pa], not negative.
    """
    return drive / of.mouth if drive < of.mouth else 1.0


def uncovered(of: Problem, area: float, above: float, foot: float) -> float:
    """Return the air that runs back through a mouth once it has pushed the fuel out of it [kg/s].

    Parameters
    ----------
    of, area
        As in `drawn`.
    above
        Pressure of the air on the fuel [Pa].
    foot
        Pressure that the fuel has at the mouth [Pa].
    """
    return mouth(of, above - foot) * drawn(of, area, above, foot) if above > foot else 0.0


def volume(of: Problem, share: float, pressure: float) -> float:
    """Return the volume of a kilogram of air and fuel [m3/kg].

    Parameters
    ----------
    of
        The network.
    share, pressure
        Fuel in a kilogram of it [1], and its absolute pressure [Pa].
    """
    return specific_volume(share, pressure, of.temperature, of.density, of.gas_constant)
