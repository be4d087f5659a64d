"""The air outside, against the standard and a library of humid air.

Rows of the table are held to their last printed digit.
"""

import pytest
from CoolProp.HumidAirProp import HAPropsSI
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.matter.atmosphere import (
    Weather,
    humidity_ratio,
    moist_air_density,
    saturation_pressure,
    standard_pressure,
    standard_temperature,
)

from tests.published.table import Row, rows

INCH_OF_MERCURY = 3386.389  # Pa; NIST SP 811
EARTH_RADIUS = 6_356_766.0  # m; US Standard Atmosphere 1976


def geometric(feet: float) -> float:
    """Return the geometric altitude [m] of a geopotential one, in which flight tables count."""
    geopotential = 0.3048 * feet
    return EARTH_RADIUS * geopotential / (EARTH_RADIUS - geopotential)


@pytest.mark.parametrize("row", rows("9 standard atmosphere T", "geometric"))
def test_temperature_is_the_standards(row: Row) -> None:
    assert standard_temperature(row.number("geometric")) == row.digits


@pytest.mark.parametrize("row", rows("9 standard atmosphere p", "geometric"))
def test_pressure_is_the_standards(row: Row) -> None:
    assert standard_pressure(row.number("geometric")) == row.digits


@pytest.mark.parametrize("row", rows("9 standard atmosphere rho", "geometric"))
def test_density_is_the_standards(row: Row) -> None:
    assert Weather.at(row.number("geometric")).density == row.digits


@pytest.mark.parametrize("row", rows("9 standard atmosphere p", "geopotential"))
def test_pressure_is_that_of_flight_tables(row: Row) -> None:
    altitude = geometric(float(row.inputs.split()[0]))
    assert standard_pressure(altitude) / INCH_OF_MERCURY == row.digits


@pytest.mark.parametrize("row", rows("9 density ratio sigma"))
def test_density_ratio_is_that_of_flight_tables(row: Row) -> None:
    weather = Weather.at(geometric(float(row.inputs.split()[0])))
    assert weather.density / Weather.at(0.0).density == row.digits


@pytest.mark.parametrize("celsius", [1.0, 10.0, 20.0, 30.0, 40.0, 50.0])
@pytest.mark.parametrize("humidity", [0.0, 0.5, 1.0])
@pytest.mark.parametrize("pressure", [70e3, 101_325.0])
def test_moist_air_is_as_heavy_as_the_librarys(
    celsius: float, humidity: float, pressure: float
) -> None:
    # CoolProp's humid air: real gases, enhancement factor; 0.1 % covers what we leave out.
    kelvin = celsius + 273.15
    volume = HAPropsSI("Vha", "T", kelvin, "P", pressure, "R", humidity)
    assert moist_air_density(pressure, kelvin, humidity) == pytest.approx(1 / volume, rel=1e-3)


@pytest.mark.parametrize("celsius", [1.0, 10.0, 20.0, 30.0, 40.0, 50.0])
def test_water_carried_is_the_librarys(celsius: float) -> None:
    # The library's enhancement factor is 0.4 to 0.5 % of the vapour, which we leave out.
    kelvin = celsius + 273.15
    expected = HAPropsSI("W", "T", kelvin, "P", 101_325.0, "R", 0.6)
    assert humidity_ratio(101_325.0, kelvin, 0.6) == pytest.approx(expected, rel=8e-3)


@pytest.mark.parametrize(
    ("celsius", "pascals"), [(0.0, 611.2), (20.0, 2339.0), (100.0 / 3, 5128.0), (50.0, 12352.0)]
)
def test_saturation_pressure_is_that_of_steam_tables(celsius: float, pascals: float) -> None:
    # IAPWS saturation line, as CoolProp gives it; the Magnus form is good to 0.3 % here.
    assert saturation_pressure(celsius + 273.15) == pytest.approx(pascals, rel=3e-3)


def test_air_is_thinner_higher_up_also_at_one_temperature() -> None:
    low, middle, high = (Weather.at(each, 300.0, 0.5).density for each in (0.0, 1000.0, 3000.0))
    assert low > middle > high


def test_gas_constant_is_that_of_the_mixture() -> None:
    weather = Weather.at(500.0, 303.15, 0.8)
    mixture = (287.05287 + weather.water * 461.523) / (1 + weather.water)
    assert weather.gas_constant == pytest.approx(mixture, rel=1e-12)


def test_damp_air_is_lighter() -> None:
    assert Weather.at(0.0, 303.15, 1.0).density < Weather.at(0.0, 303.15, 0.0).density


@pytest.mark.parametrize("altitude", [-600.0, 12_000.0, float("nan")])
def test_altitude_outside_the_troposphere_is_refused(altitude: float) -> None:
    with pytest.raises(RangeError, match="altitude must be between -500 and 11000 m"):
        standard_pressure(altitude)


def test_humidity_in_percent_is_refused() -> None:
    with pytest.raises(RangeError, match="humidity must be between 0 and 1, got 60"):
        humidity_ratio(101_325.0, 300.0, 60.0)
