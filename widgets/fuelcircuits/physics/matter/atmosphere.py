"""The air outside: pressure and temperature against altitude, and the density of moist air."""

from dataclasses import dataclass
from functools import cached_property
from math import exp

from fuelcircuits.errors import between
from fuelcircuits.physics.entry import Section, entry

__all__ = [
    "AIR_CONSTANT",
    "VAPOUR_CONSTANT",
    "Weather",
    "humidity_ratio",
    "moist_air_density",
    "saturation_pressure",
    "standard_pressure",
    "standard_temperature",
]

AIR_CONSTANT = 287.05287  # J/(kg K), dry air; US Standard Atmosphere 1976
VAPOUR_CONSTANT = 461.523  # J/(kg K), water vapour; 8314.4626 J/(kmol K) over 18.01528 kg/kmol

_EARTH_RADIUS = 6_356_766.0  # m, the standard's own
_SEA_LEVEL_PRESSURE = 101_325.0  # Pa
_SEA_LEVEL_TEMPERATURE = 288.15  # K
_LAPSE_RATE = 0.0065  # K per geopotential metre
_GRAVITY = 9.80665  # m/s2


def standard_temperature(altitude: float) -> float:
    r"""Return the temperature of the standard atmosphere.

    .. math:: T = 288.15 - 0.0065 H, \qquad H = \frac{r z}{r + z}

    Parameters
    ----------
    altitude
        Geometric altitude z above sea level [m], -500 to 11 000.

    Returns
    -------
    Temperature [K].

    Raises
    ------
    RangeError
        If the altitude is outside the troposphere.

    References
    ----------
    U.S. Standard Atmosphere, 1976 (NOAA-S/T 76-1562), eq. 18 and 23.
    """
    between("altitude", altitude, -500.0, 11_000.0, "m")
    geopotential = _EARTH_RADIUS * altitude / (_EARTH_RADIUS + altitude)
    return _SEA_LEVEL_TEMPERATURE - _LAPSE_RATE * geopotential


def standard_pressure(altitude: float) -> float:
    r"""Return the pressure of the standard atmosphere.

    .. math:: p = p_0 \left(\frac{T}{T_0}\right)^{g/(R L)}

    Parameters
    ----------
    altitude
        Geometric altitude above sea level [m], -500 to 11 000.

    Returns
    -------
    Absolute pressure [Pa].

    Raises
    ------
    RangeError
        If the altitude is outside the troposphere.

    References
    ----------
    U.S. Standard Atmosphere, 1976 (NOAA-S/T 76-1562), eq. 33a.
    """
    exponent = _GRAVITY / (AIR_CONSTANT * _LAPSE_RATE)
    ratio = standard_temperature(altitude) / _SEA_LEVEL_TEMPERATURE
    pressure: float = _SEA_LEVEL_PRESSURE * ratio**exponent
    return pressure


def saturation_pressure(temperature: float) -> float:
    r"""Return the pressure of water vapour over liquid water at saturation.

    .. math:: e_w = 611.2 \exp\frac{17.62\,t}{243.12 + t}

    with t in degrees Celsius. Below freezing the water is taken as supercooled, as
    weather stations do when they report relative humidity.

    Parameters
    ----------
    temperature
        Air temperature [K], 228 to 333 (-45 to 60 degC).

    Returns
    -------
    Saturation pressure [Pa], within 0.6 % over the range.

    Raises
    ------
    RangeError
        If the temperature is outside the range of the formula.

    References
    ----------
    World Meteorological Organization, Guide to Meteorological Instruments and Methods of
    Observation, WMO-No. 8, Annex 4.B (the Magnus form).
    """
    celsius = between("temperature", temperature, 228.0, 334.0, "K") - 273.15
    return 611.2 * exp(17.62 * celsius / (243.12 + celsius))


def moist_air_density(pressure: float, temperature: float, humidity: float = 0.0) -> float:
    r"""Return the density of a mixture of dry air and water vapour, both ideal gases.

    .. math:: \rho = \frac{p - \varphi e_w}{R_a T} + \frac{\varphi e_w}{R_v T}

    Parameters
    ----------
    pressure
        Total absolute pressure [Pa].
    temperature
        Temperature [K], 228 to 333.
    humidity
        Relative humidity [1], 0 to 1.

    Returns
    -------
    Density [kg/m3].

    Raises
    ------
    RangeError
        If temperature or humidity is out of range.

    References
    ----------
    First principles: Dalton's law and the ideal-gas law.
    """
    vapour = between("humidity", humidity, 0.0, 1.0) * saturation_pressure(temperature)
    dry = (pressure - vapour) / AIR_CONSTANT
    return (dry + vapour / VAPOUR_CONSTANT) / temperature


def humidity_ratio(pressure: float, temperature: float, humidity: float) -> float:
    r"""Return the mass of water vapour carried by each kilogram of dry air.

    .. math:: w = \frac{R_a}{R_v} \frac{\varphi e_w}{p - \varphi e_w}

    Parameters
    ----------
    pressure
        Total absolute pressure [Pa].
    temperature
        Temperature [K], 228 to 333.
    humidity
        Relative humidity [1], 0 to 1.

    Returns
    -------
    Humidity ratio [kg/kg].

    Raises
    ------
    RangeError
        If temperature or humidity is out of range.

    References
    ----------
    First principles: Dalton's law and the ideal-gas law.
    """
    vapour = between("humidity", humidity, 0.0, 1.0) * saturation_pressure(temperature)
    return AIR_CONSTANT / VAPOUR_CONSTANT * vapour / (pressure - vapour)


@dataclass(frozen=True)
class Weather(Section):
    """The air that the engine breathes."""

    pressure: float = entry("Pa", 45e3, 110e3, "absolute pressure of the air outside")
    temperature: float = entry("K", 228.0, 334.0, "temperature of the air outside")
    humidity: float = entry("1", 0.0, 1.0, "relative humidity", default=0.0)

    @classmethod
    def at(
        cls, altitude: float = 0.0, temperature: float | None = None, humidity: float = 0.0
    ) -> "Weather":
        """Return the standard weather at `altitude` [m], or its pressure at `temperature` [K]."""
        if temperature is None:
            temperature = standard_temperature(altitude)
        return cls(standard_pressure(altitude), temperature, humidity)

    @cached_property
    def density(self) -> float:
        """Density of the moist air [kg/m3]."""
        return moist_air_density(self.pressure, self.temperature, self.humidity)

    @cached_property
    def gas_constant(self) -> float:
        """Gas constant of the moist air [J/(kg K)]."""
        return self.pressure / (self.density * self.temperature)

    @property
    def water(self) -> float:
        """Mass of water vapour for each kilogram of dry air [kg/kg]."""
        return humidity_ratio(self.pressure, self.temperature, self.humidity)
