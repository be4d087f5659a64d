"""Unit 01, the air: what the engine draws, how fast it runs in the throat, how hard it pulls."""

from dataclasses import replace
from math import pi

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values
from fuelmarks.questions.shop_arithmetic import asked_again as earlier_units

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
        ask="Half of that air passes through each of two venturis, whose throats are "
        "**{venturi_bore}** across. If the air keeps the density it had outside, how fast does it "
        "move in the throat?",
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
                "Twice too fast, because the air divides itself between two venturis.",
            ),
            Slip(
                "diameter-for-radius",
                lambda given, earlier: _velocity(given, earlier) / 4,
                0.5,
                "Four times too slow, because the area came out four times too large. Use the "
                "radius of the throat in pi r², not its diameter.",
            ),
        ),
        hints=("Mass flow is density times area times velocity, so turn that formula round.",),
    ),
    Exercise(
        id="simple-depression",
        ask="If the air kept its density, how far would the pressure in the throat lie below the "
        "pressure of the still air before it? That difference is half the density times velocity "
        "squared.",
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
                "The half is missing, which comes from the energy of moving air, half m v².",
            ),
            Slip(
                "water-for-air",
                lambda given, earlier: 0.5 * 1000.0 * earlier["throat-velocity"] ** 2,
                0.25,
                "You took the density of water, but what moves through this throat is air.",
            ),
        ),
        hints=("Keep the units on both quantities, and ask the result for .to('kPa') at the end.",),
    ),
    Exercise(
        id="true-depression",
        ask="At full throttle the air in the throat reaches **{throat_speed}**, while the air "
        "before it is still, at {ambient_pressure} and **{air_temperature}**. Now let the air "
        "expand as it accelerates: its pressure falls by p times `1 - (1 - x)**3.5`, where x is "
        "the velocity squared over (2 times 1005 J/(kg K) times the temperature in kelvins). How "
        "large is the fall?",
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
                "That is the simple law, which leaves the density as it was. Fast air expands, so "
                "its pressure falls by a little less than that.",
            ),
            Slip(
                "pressure-left",
                lambda given, earlier: given["ambient_pressure"] * (1 - _warmth(given)) ** 3.5,
                0.5,
                "That is the pressure which remains in the throat, but the question asks how far "
                "it has fallen.",
            ),
            Slip(
                "no-power",
                lambda given, earlier: given["ambient_pressure"] * _warmth(given),
                0.25,
                "The power of 3.5 is missing, which belongs to the bracket (1 - x).",
            ),
        ),
        hints=(
            "Calculate x first, which is a small number without a unit, so ask it for .m_as('').",
            "You get the temperature in kelvins from air_temperature.to('kelvin').",
        ),
    ),
)
