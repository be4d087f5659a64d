"""Main venturi and booster: the depression that lifts the fuel, and what is made good below.

Flows are those of all barrels together; the barrels are alike. `depression` and
`throat_velocity` are what a textbook works out of any venturi.
"""

from math import pi, sqrt

from fuelcircuits.errors import between
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT, Weather
from fuelcircuits.physics.openings.gas_flow import HEAT_RATIO, pressure_after

__all__ = [
    "booster_gain",
    "booster_pressure",
    "depression",
    "throat_velocity",
    "throttle_pressure",
    "venturi_area",
    "venturi_pressure",
]


def booster_gain(air_path: AirPath) -> float:
    r"""Return how many times deeper the booster's depression is than the main venturi's.

    .. math:: G = \frac{1}{1 - \zeta\left[1 - (d_t/d_e)^4\right]}

    The booster ends in the main venturi's throat, so that its exit is at that pressure; its
    diffuser lets the throat lie lower still.

    Parameters
    ----------
    air_path
        Its booster's throat d_t, exit d_e and recovery :math:`\zeta`.

    Returns
    -------
    Gain [1], at least 1 for a diffuser that widens.

    References
    ----------
    First principles: Bernoulli from the horn to the booster's throat, and a diffuser that
    makes the share :math:`\zeta` of its ideal pressure rise.
    """
    widening = 1 - (air_path.booster_throat / air_path.booster_exit) ** 4
    return 1 / (1 - air_path.booster_recovery * widening)


def venturi_area(air_path: AirPath) -> float:
    r"""Return the effective area that all barrels' venturis offer to the main depression.

    .. math:: C A = n C \frac{\pi}{4}\left(D^2 - d_o^2 + d_t^2 \sqrt{G}\right)

    Parameters
    ----------
    air_path
        Its n barrels of throat D with a booster of outside d_o and throat d_t.

    Returns
    -------
    Effective area [m2].

    References
    ----------
    First principles: the ring round the booster, and the booster, whose flow is driven by G
    times the depression.
    """
    ring = air_path.venturi_bore**2 - air_path.booster_outside**2
    through = air_path.booster_throat**2 * sqrt(booster_gain(air_path))
    return air_path.barrels * air_path.venturi_discharge * pi / 4 * (ring + through)


def venturi_pressure(
    air_path: AirPath, choke_pressure: float, air_flow: float, weather: Weather
) -> float:
    """Return the pressure in the main venturi's throat at a given air flow.

    Parameters
    ----------
    air_path
        The path.
    choke_pressure
        Absolute pressure below the choke plate [Pa].
    air_flow
        Air through all barrels [kg/s].
    weather
        The air outside; its temperature and moisture are the passing air's.

    Returns
    -------
    Absolute pressure [Pa].

    References
    ----------
    Isentropic flow, as in `fuelcircuits.physics.openings.gas_flow.pressure_after`.
    """
    return pressure_after(
        venturi_area(air_path),
        choke_pressure,
        air_flow,
        weather.temperature,
        gas_constant=weather.gas_constant,
    )


def booster_pressure(air_path: AirPath, choke_pressure: float, venturi_pressure: float) -> float:
    r"""Return the pressure in the booster's throat, where the main nozzle ends.

    .. math:: p_b = p_h \left(\frac{p_v}{p_h}\right)^G

    For small depressions the booster's is G times the main venturi's; the power keeps the
    pressure above nought whatever the flow.

    Parameters
    ----------
    air_path
        The path; G is its `booster_gain`.
    choke_pressure
        Absolute pressure p_h below the choke plate [Pa].
    venturi_pressure
        Absolute pressure p_v in the main venturi's throat [Pa].

    Returns
    -------
    Absolute pressure [Pa].

    References
    ----------
    First principles for small depressions, see `booster_gain`; the power is this package's.
    """
    ratio: float = (venturi_pressure / choke_pressure) ** booster_gain(air_path)
    return choke_pressure * ratio


def throttle_pressure(air_path: AirPath, choke_pressure: float, venturi_pressure: float) -> float:
    r"""Return the pressure below the venturis, above the throttle plate.

    .. math:: p_t = p_h - (1 - \zeta)(p_h - p_v)

    Parameters
    ----------
    air_path
        The path; :math:`\zeta` is its `venturi_recovery`.
    choke_pressure
        Absolute pressure p_h below the choke plate [Pa].
    venturi_pressure
        Absolute pressure p_v in the main venturi's throat [Pa].

    Returns
    -------
    Absolute pressure [Pa].

    References
    ----------
    A diffuser that makes good the share :math:`\zeta` of the depression: common practice,
    no source.
    """
    lost = (1 - air_path.venturi_recovery) * (choke_pressure - venturi_pressure)
    return choke_pressure - lost


def depression(air_flow: float, area: float, density: float) -> float:
    r"""Return a venturi's depression with the air taken as incompressible.

    .. math:: \Delta p = \frac{1}{2 \rho} \left(\frac{\dot m}{C A}\right)^2

    Parameters
    ----------
    air_flow
        Air flow [kg/s].
    area
        Effective area C A of the throat [m2].
    density
        Density of the air before the venturi [kg/m3].

    Returns
    -------
    Depression [Pa].

    References
    ----------
    Bernoulli; Heywood 1988, eq. 7.4, without its compressibility factor.
    """
    return (air_flow / area) ** 2 / (2 * density)


def throat_velocity(pressure_ratio: float, temperature: float) -> float:
    r"""Return the air's velocity in a throat, compressible and without loss.

    .. math:: C = \sqrt{\frac{2 \gamma R T}{\gamma - 1} \left[1 - r^{(\gamma - 1)/\gamma}\right]}

    Parameters
    ----------
    pressure_ratio
        Throat pressure over pressure before the venturi, r [1].
    temperature
        Temperature T before the venturi [K].

    Returns
    -------
    Velocity [m/s].

    Raises
    ------
    RangeError
        If the pressure ratio is outside 0 to 1.

    References
    ----------
    Steady flow of an ideal gas from rest: first principles.
    """
    power = (HEAT_RATIO - 1) / HEAT_RATIO
    fallen: float = 1 - between("pressure ratio", pressure_ratio, 0, 1) ** power
    return sqrt(2 * AIR_CONSTANT / power * temperature * fallen)
