"""The carburettor of the textbooks: one venturi, one jet, given coefficients.

It is the limit of the whole model with no bleeds, no compressibility and no lip, and it is
what textbook answers are worked with. Books differ in where they put the coefficient; each
function says which way it takes.
"""

from math import pi, sqrt

from fuelcircuits.errors import between, positive
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT
from fuelcircuits.physics.openings.gas_flow import HEAT_RATIO

__all__ = [
    "GRAVITY",
    "air_fuel_ratio",
    "bore_of",
    "depression",
    "jet_area",
    "jet_drop",
    "ratio_at_density",
    "ratio_with_cleaner",
    "starting_velocity",
    "throat_area",
    "throat_ratio",
    "throat_velocity",
]

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]; ISO 80000-3."""
_POWER = (HEAT_RATIO - 1) / HEAT_RATIO


def bore_of(area: float) -> float:
    """Return the bore of a round passage of `area` [m2], in metres."""
    return sqrt(4 / pi * positive("area", area, "m2"))


def depression(air_flow: float, area: float, density: float, discharge: float = 1.0) -> float:
    r"""Return the venturi's depression with the air taken as incompressible.

    .. math:: \Delta p = \frac{1}{2 \rho} \left(\frac{\dot m}{C A}\right)^2

    Parameters
    ----------
    air_flow
        Air flow [kg/s].
    area
        Throat area A [m2].
    density
        Density of the air before the venturi [kg/m3].
    discharge
        Discharge coefficient C [1].

    Returns
    -------
    Depression [Pa].

    References
    ----------
    Bernoulli; Heywood 1988, eq. 7.4, without its compressibility factor.
    """
    return (air_flow / (discharge * area)) ** 2 / (2 * density)


def throat_velocity(
    pressure_ratio: float,
    temperature: float,
    velocity_coefficient: float = 1.0,
    *,
    gas_constant: float = AIR_CONSTANT,
) -> float:
    r"""Return the air's velocity in the throat, compressible.

    .. math:: C_2 = C_v \sqrt{\frac{2 \gamma R T_1}{\gamma - 1}
                    \left[1 - r^{(\gamma - 1)/\gamma}\right]}

    Parameters
    ----------
    pressure_ratio
        Throat pressure over pressure before the venturi, r [1].
    temperature
        Temperature T_1 before the venturi [K].
    velocity_coefficient
        Real over ideal velocity C_v [1].
    gas_constant
        R [J/(kg K)].

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
    between("pressure ratio", pressure_ratio, 0, 1)
    heat = 2 * gas_constant / _POWER * temperature
    return velocity_coefficient * sqrt(heat * (1 - pressure_ratio**_POWER))


def throat_ratio(
    velocity: float,
    temperature: float,
    velocity_coefficient: float = 1.0,
    *,
    gas_constant: float = AIR_CONSTANT,
) -> float:
    """Return throat pressure over pressure before; the inverse of `throat_velocity` [1].

    Raises `RangeError` if the air cannot get that fast, even into a vacuum.
    """
    fastest = sqrt(2 * gas_constant / _POWER * temperature)
    ideal = between("velocity", velocity / velocity_coefficient, 0, fastest, "m/s")
    ratio: float = (1 - (ideal / fastest) ** 2) ** (1 / _POWER)
    return ratio


def throat_area(
    air_flow: float,
    velocity: float,
    pressure: float,
    temperature: float,
    *,
    velocity_coefficient: float = 1.0,
    discharge: float = 1.0,
    gas_constant: float = AIR_CONSTANT,
) -> float:
    r"""Return the throat that passes an air flow at a given velocity.

    .. math:: A = \frac{\dot m}{C \rho_2 C_2}, \qquad \rho_2 = \frac{p_1}{R T_1} r^{1/\gamma}

    Parameters
    ----------
    air_flow
        Air flow [kg/s].
    velocity
        Velocity C_2 in the throat [m/s]; the real one if a velocity coefficient is given,
        the ideal one if a discharge coefficient is.
    pressure, temperature
        State of the air before the venturi [Pa], [K].
    velocity_coefficient
        Real over ideal velocity [1]; the pressure ratio is that of the ideal one.
    discharge
        Discharge coefficient C [1].
    gas_constant
        R [J/(kg K)].

    Returns
    -------
    Area [m2].

    References
    ----------
    Continuity, with the expansion at constant entropy: first principles.
    """
    ratio = throat_ratio(velocity, temperature, velocity_coefficient, gas_constant=gas_constant)
    thinner: float = ratio ** (1 / HEAT_RATIO)
    density = pressure / (gas_constant * temperature) * thinner
    return air_flow / (discharge * density * velocity)


def jet_drop(
    fuel_flow: float, area: float, density: float, discharge: float, lip: float = 0.0
) -> float:
    r"""Return the depression that draws a fuel flow through a jet and over the nozzle's lip.

    .. math:: \Delta p = \frac{1}{2 \rho} \left(\frac{\dot m}{C A}\right)^2 + \rho g z

    Parameters
    ----------
    fuel_flow
        Fuel flow [kg/s].
    area
        Jet area A [m2].
    density
        Density of the fuel [kg/m3].
    discharge
        Discharge coefficient C [1].
    lip
        Height z of the nozzle's lip above the fuel in the bowl [m].

    Returns
    -------
    Depression [Pa].

    References
    ----------
    Bernoulli; Heywood 1988, eq. 7.6.
    """
    head = GRAVITY * density * lip
    return depression(fuel_flow, area, density, discharge) + head


def jet_area(
    fuel_flow: float, drop: float, density: float, discharge: float, lip: float = 0.0
) -> float:
    """Return the jet that passes `fuel_flow` at a depression `drop`; the inverse of `jet_drop`.

    Parameters
    ----------
    fuel_flow, density, discharge, lip
        As in `jet_drop`.
    drop
        Depression [Pa], more than the head over the lip.

    Returns
    -------
    Area [m2].

    Raises
    ------
    RangeError
        If the depression does not lift the fuel over the lip.
    """
    driving = drop - GRAVITY * density * lip
    speed = sqrt(2 * density * positive("depression over the lip", driving, "Pa"))
    return fuel_flow / (discharge * speed)


def air_fuel_ratio(
    throat: float,
    jet: float,
    drop: float,
    densities: tuple[float, float],
    discharges: tuple[float, float],
    *,
    lip: float = 0.0,
) -> float:
    r"""Return the air-fuel ratio of the simple carburettor.

    .. math:: \frac{m_a}{m_f} = \frac{C_a A_a}{C_f A_f} \sqrt{\frac{\rho_a}{\rho_f}}
              \sqrt{\frac{\Delta p}{\Delta p - \rho_f g z}}

    Parameters
    ----------
    throat, jet
        Areas of throat and jet [m2].
    drop
        Depression [Pa].
    densities
        Densities of air and of fuel [kg/m3].
    discharges
        Discharge coefficients of throat and of jet [1].
    lip
        Height z of the nozzle's lip above the fuel in the bowl [m].

    Returns
    -------
    Air-fuel ratio by mass [1].

    Raises
    ------
    RangeError
        If the depression does not lift the fuel over the lip.

    References
    ----------
    Heywood 1988, eq. 7.8, without its compressibility factor.
    """
    air = discharges[0] * throat * sqrt(2 * densities[0] * drop)
    return air * jet_area(1.0, drop, densities[1], discharges[1], lip) / jet


def starting_velocity(
    lip: float, fuel_density: float, air_density: float, coefficient: float = 1.0
) -> float:
    r"""Return the throat velocity at which fuel begins to run over the lip.

    .. math:: C = C_a \sqrt{2 g z \rho_f / \rho_a}

    Parameters
    ----------
    lip
        Height z of the lip [m].
    fuel_density, air_density
        Densities [kg/m3].
    coefficient
        C_a [1], for books that put the venturi's coefficient here.

    Returns
    -------
    Velocity [m/s].

    References
    ----------
    Bernoulli: first principles.
    """
    head = 2 * GRAVITY * lip * fuel_density
    return coefficient * sqrt(head / air_density)


def ratio_with_cleaner(ratio: float, drop: float, loss: float) -> float:
    r"""Return the air-fuel ratio once a cleaner's loss adds to the depression on the fuel.

    .. math:: \frac{m_a}{m_f} \sqrt{\frac{\Delta p}{\Delta p + \Delta p_c}}

    It holds for a bowl vented to the outside; one vented behind the cleaner does not notice.

    Parameters
    ----------
    ratio
        Air-fuel ratio without the loss [1].
    drop
        Venturi's depression [Pa].
    loss
        Cleaner's loss [Pa].

    Returns
    -------
    Air-fuel ratio [1].

    References
    ----------
    First principles: the air flow is kept, the fuel is drawn by both.
    """
    return ratio * sqrt(drop / (drop + loss))


def ratio_at_density(ratio: float, density_ratio: float) -> float:
    r"""Return the air-fuel ratio in thinner air.

    .. math:: \frac{m_a}{m_f} \sqrt{\rho / \rho_0}

    Parameters
    ----------
    ratio
        Air-fuel ratio at the density the jets were chosen for [1].
    density_ratio
        Density of the air over that one [1].

    Returns
    -------
    Air-fuel ratio [1].

    References
    ----------
    `air_fuel_ratio`; textbooks' rule for altitude.
    """
    return ratio * sqrt(density_ratio)
