"""The way of the air: cleaner, horn and choke plate, throttle, manifold.

Flows are those of all barrels together; the barrels are alike. Each function takes the
pressure before its part and returns the one behind it, so that a balance can be built from
them in any order. `fuelcircuits.physics.engine.breathing` solves the whole path with the engine.
"""

from dataclasses import dataclass

from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.openings.gas_flow import mass_flow, pressure_after
from fuelcircuits.physics.openings.plate import OPEN, open_area
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = [
    "AirPath",
    "choke_area",
    "choke_pressure",
    "horn_pressure",
    "linked_angle",
    "manifold_leak",
    "throttle_area",
    "throttle_flow",
]

LEAST_SPREAD = 0.05
"""Share of the horn over which the jets behind the choke plate spread at least [1]."""


@dataclass(frozen=True)
class AirPath(Section):
    """Bores and plates that the air passes (dimensions invented for each rig)."""

    barrels: float = entry("1", 1, 4, "number of like barrels")
    cleaner_area: float = entry("m^2", 1e-4, 2e-2, "effective flow area of the air cleaner")
    horn_bore: float = entry("m", 25e-3, 120e-3, "bore of a round horn of the same area")
    choke_shaft: float = entry("m", 2e-3, 15e-3, "diameter of the choke shaft with its plate")
    choke_closed_angle: float = entry("rad", 0, 0.6, "angle of the closed choke plate")
    choke_leak: float = entry("m^2", 1e-6, 5e-4, "area of slots and clearance, choke closed")
    venturi_bore: float = entry("m", 15e-3, 50e-3, "bore of the main venturi's throat")
    booster_outside: float = entry("m", 5e-3, 25e-3, "outside diameter of the booster")
    booster_throat: float = entry("m", 3e-3, 20e-3, "bore of the booster's throat")
    booster_exit: float = entry("m", 3e-3, 24e-3, "bore of the booster's exit")
    throttle_bore: float = entry("m", 20e-3, 60e-3, "bore at the throttle plate")
    throttle_shaft: float = entry("m", 3e-3, 15e-3, "diameter of the throttle shaft")
    throttle_closed_angle: float = entry("rad", 0, 0.6, "angle of the closed throttle plate")
    throttle_leak: float = entry(
        "m^2", 0, 1e-4, "clearance round one closed throttle plate and its shaft", 1e-6
    )
    horn_discharge: float = entry("1", 0.5, 1, "discharge coefficient past the choke plate", 0.8)
    venturi_discharge: float = entry("1", 0.7, 1, "discharge coefficient of the venturis", 0.9)
    throttle_discharge: float = entry("1", 0.5, 1, "discharge coefficient past the throttle", 0.85)
    booster_recovery: float = entry(
        "1", 0, 0.95, "share of the ideal pressure rise that the booster's diffuser makes", 0.75
    )
    venturi_recovery: float = entry(
        "1", 0, 0.95, "share of the main venturi's depression made good below it", 0.75
    )
    manifold_leak: float = entry("m^2", 0, 2e-4, "effective area of a leak into the manifold", 0.0)
    opens_at: float = entry(
        "rad", 0, 1.4, "first plate's angle at which a link opens this one; 0 if together", 0.0
    )
    """A barrel that a link opens late has no choke plate: common practice, no source."""
    hose_leak: float = entry("m^2", 0, 1e-4, "effective area of a hose that is off", 0.0)
    crankcase_leak: float = entry(
        "m^2", 0, 1e-4, "effective area by which the crankcase valve opens too far", 0.0
    )

    @property
    def leaks(self) -> float:
        """Effective area of all that leaks into the manifold [m2]."""
        return self.manifold_leak + self.hose_leak + self.crankcase_leak


def horn_pressure(air_path: AirPath, weather: Weather, air_flow: float) -> float:
    """Return the pressure in the horn, above the choke plate.

    The cleaner is an opening of `cleaner_area`, so that its loss rises as the square of the
    flow (common practice for a cleaner rated at one flow, no source).

    Parameters
    ----------
    air_path
        The path.
    weather
        The air outside.
    air_flow
        Air through all barrels [kg/s].

    Returns
    -------
    Absolute pressure [Pa].
    """
    return pressure_after(
        air_path.cleaner_area,
        weather.pressure,
        air_flow,
        weather.temperature,
        gas_constant=weather.gas_constant,
    )


def choke_area(air_path: AirPath, choke_angle: float = OPEN) -> float:
    r"""Return the effective flow area past the choke plate [m2], its leaks included.

    .. math:: A_e = \frac{C A}{1 - C A / A_h}

    The air leaves the plate as jets of the area C A and spreads over the horn A_h again; what
    is lost is the impact of that. An open plate costs 0.1 to 0.2 velocity heads of the horn, a
    nearly shut one all the velocity behind it.

    Parameters
    ----------
    air_path
        The path; C is its `horn_discharge`.
    choke_angle
        Angle of the choke plate from the plane across the horn [rad].

    Returns
    -------
    Area that at the same flow would lose as much if no velocity were recovered [m2].

    References
    ----------
    Borda's and Carnot's loss of a sudden enlargement: first principles (momentum). The plate's
    geometry is that of `fuelcircuits.physics.openings.plate.open_area`.
    """
    horn, shaft, closed = air_path.horn_bore, air_path.choke_shaft, air_path.choke_closed_angle
    clear = open_area(horn, shaft, closed, choke_angle)
    jets = air_path.horn_discharge * (clear + air_path.choke_leak)
    return jets / max(1.0 - jets / bore_area(horn), LEAST_SPREAD)


def choke_pressure(
    air_path: AirPath,
    horn_pressure: float,
    air_flow: float,
    weather: Weather,
    choke_angle: float = OPEN,
) -> float:
    """Return the pressure below the choke plate.

    Parameters
    ----------
    air_path
        The path.
    horn_pressure
        Absolute pressure above the plate [Pa].
    air_flow
        Air through all barrels [kg/s].
    weather
        The air outside; its temperature and moisture are the passing air's.
    choke_angle
        Angle of the choke plate from the plane across the horn [rad].

    Returns
    -------
    Absolute pressure [Pa].

    References
    ----------
    Isentropic flow through the area of `choke_area`: first principles.
    """
    return pressure_after(
        choke_area(air_path, choke_angle),
        horn_pressure,
        air_flow,
        weather.temperature,
        gas_constant=weather.gas_constant,
    )


def throttle_area(air_path: AirPath, throttle_angle: float) -> float:
    """Return the effective flow area past all throttle plates, their clearance included.

    Parameters
    ----------
    air_path
        The path.
    throttle_angle
        Angle of the plates from the plane across the bore [rad].

    Returns
    -------
    Open area times discharge coefficient [m2].

    References
    ----------
    The plate's geometry is that of `fuelcircuits.physics.openings.plate.open_area`.
    """
    shaft, closed = air_path.throttle_shaft, air_path.throttle_closed_angle
    clear = open_area(air_path.throttle_bore, shaft, closed, throttle_angle)
    single = air_path.throttle_discharge * (clear + air_path.throttle_leak)
    return air_path.barrels * single


def linked_angle(air_path: AirPath, first_angle: float) -> float:
    r"""Return the plate angle of a barrel that a link opens after the first.

    .. math::
        \theta = \theta_0 + \left(\frac\pi2 - \theta_0\right)
                 \frac{[\theta_1 - \theta_s]_0}{\pi/2 - \theta_s}

    Up to the angle :math:`\theta_s` of the first plate the second stays closed; from there it
    opens evenly, so that both stand wide open together.

    Parameters
    ----------
    air_path
        The barrel's own path; its `opens_at` is :math:`\theta_s`. Where that is 0, both plates
        sit on one shaft and the angle is the first's.
    first_angle
        Angle of the first barrel's plate from the plane across its bore [rad], 0 to pi/2.

    Returns
    -------
    Angle [rad].

    References
    ----------
    A link with a slot, taken as even: common practice, no source.
    """
    if not air_path.opens_at:
        return first_angle
    closed, late = air_path.throttle_closed_angle, max(first_angle - air_path.opens_at, 0.0)
    return closed + (OPEN - closed) * late / (OPEN - air_path.opens_at)


def throttle_flow(
    air_path: AirPath,
    throttle_angle: float,
    throttle_pressure: float,
    manifold_pressure: float,
    weather: Weather,
) -> float:
    """Return the air past the throttle plates.

    Parameters
    ----------
    air_path
        The path.
    throttle_angle
        Angle of the plates from the plane across the bore [rad].
    throttle_pressure
        Absolute pressure above the plates [Pa].
    manifold_pressure
        Absolute pressure below them [Pa].
    weather
        The air outside; its temperature and moisture are the passing air's.

    Returns
    -------
    Air flow [kg/s], negative if it runs back.

    References
    ----------
    Heywood 1988, eq. 7.19 and 7.20.
    """
    return mass_flow(
        throttle_area(air_path, throttle_angle),
        throttle_pressure,
        manifold_pressure,
        weather.temperature,
        gas_constant=weather.gas_constant,
    )


def manifold_leak(air_path: AirPath, manifold_pressure: float, weather: Weather) -> float:
    """Return the air that leaks from outside straight into the manifold.

    Parameters
    ----------
    air_path
        The path; its `leaks` are the leak's effective area.
    manifold_pressure
        Absolute pressure in the manifold [Pa].
    weather
        The air outside.

    Returns
    -------
    Air flow [kg/s], positive into the manifold.

    References
    ----------
    Isentropic flow, as in `fuelcircuits.physics.openings.gas_flow.mass_flow`.
    """
    return mass_flow(
        air_path.leaks,
        weather.pressure,
        manifold_pressure,
        weather.temperature,
        gas_constant=weather.gas_constant,
    )
