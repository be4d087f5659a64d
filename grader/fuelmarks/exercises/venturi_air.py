"""Unit 01, the air: what the engine draws, how fast it runs in the throat, how hard it pulls."""

from dataclasses import replace
from math import pi

from fuelmarks.exercises import earlier_units
from fuelmarks.exercises.exercise import Exercise, Slip, Values

__all__ = ["AIR_CONSTANT", "EXERCISES", "HEAT"]

AIR_CONSTANT, HEAT = 287.0, 1005.0
"""Gas constant and specific heat of air the questions tell the trainee to use [J/(kg K)]."""
THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."


def _throat(given: Values) -> float:
    """Return the area of both throats together [m2]."""
    return 2 * pi / 4 * given["venturi_bore"] ** 2


def _velocity(given: Values, earlier: Values) -> float:
    """Return the velocity in the throats [m/s]."""
    return earlier["air-demand"] / (given["air_density"] * _throat(given))


def _warmth(given: Values) -> float:
    """Return the share of the air's heat that its speed takes, a number [1]."""
    return given["throat_speed"] ** 2 / (2 * HEAT * given["air_temperature"])


def _slow(given: Values) -> float:
    """Return the depression with the density left as it was [Pa]."""
    density = given["ambient_pressure"] / (AIR_CONSTANT * given["air_temperature"])
    return 0.5 * density * given["throat_speed"] ** 2


EXERCISES = (
    replace(
        earlier_units.AIR_DEMAND,
        ask=earlier_units.AIR_DEMAND.ask.removeprefix("From unit 01. "),
        high=200.0,
    ),
    Exercise(
        id="throat-velocity",
        ask="Half of that air goes through each of two venturis. The throat of each is "
        "**{venturi_bore}** across. With the density of the air as it stands, how fast does the "
        "air run in the throat?",
        unit="m/s",
        reference=_velocity,
        tolerance=0.02,
        why=THREE_FIGURES,
        low=15.0,
        high=140.0,
        points=2,
        outcomes=("AIR-2",),
        follows=("air-demand",),
        slips=(
            Slip(
                "all-through-one",
                lambda given, earlier: 2 * _velocity(given, earlier),
                0.5,
                "Twice too fast: the air shares itself between two venturis.",
            ),
            Slip(
                "diameter-for-radius",
                lambda given, earlier: _velocity(given, earlier) / 4,
                0.5,
                "Four times too slow: the area came out too large. Radius, not diameter.",
            ),
        ),
        hints=("Mass flow is density times area times velocity.",),
    ),
    Exercise(
        id="simple-depression",
        ask="If the air kept its density, how far would the pressure in the throat lie below "
        "that of the still air before it? It is half the density times velocity squared.",
        unit="kPa",
        reference=lambda given, earlier: (
            0.5 * given["air_density"] * earlier["throat-velocity"] ** 2
        ),
        tolerance=0.04,
        why="The velocity is squared, which doubles every error brought along.",
        low=0.1,
        high=12.0,
        points=2,
        outcomes=("AIR-2",),
        follows=("throat-velocity",),
        slips=(
            Slip(
                "no-half",
                lambda given, earlier: given["air_density"] * earlier["throat-velocity"] ** 2,
                0.5,
                "The half is missing: it comes from half m v².",
            ),
            Slip(
                "water-for-air",
                lambda given, earlier: 0.5 * 1000.0 * earlier["throat-velocity"] ** 2,
                0.25,
                "You took the density of water. What runs here is air.",
            ),
        ),
        hints=("Keep the units on; at the end ask for .to('kPa').",),
    ),
    Exercise(
        id="true-depression",
        ask="At full throttle the air in the throat reaches **{throat_speed}**. Before it the air "
        "is still, at {ambient_pressure} and **{air_temperature}**. Now let it thin out as it "
        "speeds up: the pressure falls by p times `1 - (1 - x)**3.5`, with x the velocity "
        "squared over (2 times 1005 J/(kg K) times kelvins). How large is the fall?",
        unit="kPa",
        reference=lambda given, earlier: (
            given["ambient_pressure"] * (1 - (1 - _warmth(given)) ** 3.5)
        ),
        tolerance=0.01,
        why="With and without thinning differ by a few in a hundred, so the band is narrow.",
        low=4.0,
        high=16.0,
        points=3,
        outcomes=("AIR-2", "SHOP-1"),
        slips=(
            Slip(
                "not-thinned",
                lambda given, earlier: _slow(given),
                0.5,
                "That is the simple law, with the density left as it was. Fast air thins out.",
            ),
            Slip(
                "pressure-left",
                lambda given, earlier: given["ambient_pressure"] * (1 - _warmth(given)) ** 3.5,
                0.5,
                "That is what is left in the throat. Asked is how far it fell.",
            ),
            Slip(
                "no-power",
                lambda given, earlier: given["ambient_pressure"] * _warmth(given),
                0.25,
                "The power of 3.5 is missing.",
            ),
        ),
        hints=(
            "x first; it is a small number without a unit: .m_as('').",
            "Kelvins: air_temperature.to('kelvin').",
        ),
    ),
)
