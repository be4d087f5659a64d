"""Unit 02, the inlet: whether the open seat passes what the engine drinks."""

from math import sqrt

from fuelcircuits.physics.circuits.needle_valve import seat_area

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]


def _demand(given: Values) -> float:
    """Return the fuel that the engine drinks at full load [kg/s]."""
    return given["air_flow"] / given["air_fuel_ratio"]


def _reserve(given: Values, pressure: float, density: float) -> float:
    """Return what the open seat passes over what the engine drinks [1]."""
    passes = float(seat_area(given["seat_bore"])) * sqrt(2 * density * pressure)
    return given["seat_coefficient"] * passes / _demand(given)


def _right(given: Values) -> float:
    """Return the reserve at the pump's gauge pressure, in petrol [1]."""
    return _reserve(given, given["supply_pressure"], given["fuel_density"])


EXERCISES = (
    Exercise(
        id="inlet-reserve",
        ask="At full load the engine draws **{air_flow}** of air through both barrels together, "
        "with **{air_fuel_ratio}** parts of air to one of fuel by mass. With the float on its "
        "drop stop the seat of {seat_bore} is wide open, and its discharge coefficient C is "
        "**{seat_coefficient}**. It passes C times its area times the root of (2 times density "
        "times pressure), with {fuel_density} and {supply_pressure} on the gauge. How many times "
        "what the engine drinks is that?",
        unit="",
        reference=lambda given, earlier: _right(given),
        tolerance=0.02,
        why="Nobody needs a reserve more closely than to a tenth.",
        low=0.5,
        high=12.0,
        points=3,
        outcomes=("FLT-4", "FLT-5"),
        rounded_to=0.1,
        slips=(
            Slip(
                "upside-down",
                lambda given, earlier: 1 / _right(given),
                0.5,
                "That is the share of the seat's flow which the engine drinks. Turn it round: the "
                "seat's flow over the engine's.",
            ),
            Slip(
                "share-of-mixture",
                lambda given, earlier: (
                    _right(given) * (given["air_fuel_ratio"] + 1) / given["air_fuel_ratio"]
                ),
                0.5,
                "For the engine's fuel you divided by air and fuel together. The ratio is air to "
                "fuel, so divide the air by it as it stands.",
            ),
            Slip(
                "no-coefficient",
                lambda given, earlier: _right(given) / given["seat_coefficient"],
                0.5,
                "The discharge coefficient is missing. It is there because the jet of fuel is "
                "narrower than the opening it comes through.",
            ),
            Slip(
                "no-two",
                lambda given, earlier: _right(given) / sqrt(2),
                0.5,
                "The 2 under the root is missing, which comes from the half m v² in Bernoulli's "
                "equation.",
            ),
            Slip(
                "diameter-for-radius",
                lambda given, earlier: 4 * _right(given),
                0.5,
                "Four times too much, because the area came out of the bore as if it were the "
                "radius.",
            ),
            Slip(
                "absolute-pressure",
                lambda given, earlier: _reserve(
                    given, given["supply_pressure"] + 101_325.0, given["fuel_density"]
                ),
                0.5,
                "You took the absolute pressure. What drives the fuel is the difference between "
                "inlet and bowl, which is what the gauge shows.",
            ),
            Slip(
                "water-for-fuel",
                lambda given, earlier: _reserve(given, given["supply_pressure"], 1000.0),
                0.5,
                "You calculated with the density of water, but what flows through this seat is "
                "petrol.",
            ),
        ),
        hints=(
            "The engine's fuel is the air flow divided by the air-fuel ratio.",
            "For the seat keep the units on, with 2, density and pressure under one root, and ask "
            "the flow for .to('g/s').",
        ),
    ),
)
