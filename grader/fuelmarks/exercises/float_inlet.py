"""Unit 02, second chain: whether the inlet passes what the engine drinks."""

from math import sqrt

from fuelmarks.exercises.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."


def _ideal(given: Values) -> float:
    """Return the flow without loss for each unit of area at the pump's pressure [kg/(s m2)]."""
    return sqrt(2 * given["fuel_density"] * given["supply_pressure"])


EXERCISES = (
    Exercise(
        id="full-load-demand",
        ask="At full load the engine draws **{air_flow}** of air through both barrels together. "
        "The mixture is **{air_fuel_ratio}** parts of air to one part of fuel, by mass. How much "
        "fuel does the engine drink?",
        unit="g/s",
        reference=lambda given, earlier: given["air_flow"] / given["air_fuel_ratio"],
        tolerance=0.02,
        why=THREE_FIGURES,
        low=1.0,
        high=20.0,
        points=1,
        outcomes=("FLT-4",),
        slips=(
            Slip(
                "share-of-mixture",
                lambda given, earlier: given["air_flow"] / (given["air_fuel_ratio"] + 1),
                0.5,
                "You divided by air and fuel together. The ratio is air to fuel: divide the air "
                "by it as it stands.",
            ),
            Slip(
                "twice-for-two-barrels",
                lambda given, earlier: 2 * given["air_flow"] / given["air_fuel_ratio"],
                0.5,
                "Twice too much: the air flow is already that of both barrels together.",
            ),
            Slip(
                "one-barrel",
                lambda given, earlier: given["air_flow"] / given["air_fuel_ratio"] / 2,
                0.5,
                "Half of it: one bowl feeds both barrels.",
            ),
        ),
        hints=("Ratio of air to fuel is air flow divided by fuel flow. Turn it round.",),
    ),
    Exercise(
        id="inlet-capacity",
        ask="With the float at its drop stop the needle leaves the seat wide open, so the "
        "narrowest place is the seat bore. Its discharge coefficient C is **{seat_coefficient}**."
        " What flow passes at {supply_pressure} (gauge) into a bowl open to the air? Use "
        "C times area times the root of (2 times density times pressure), with a density of "
        "{fuel_density}.",
        unit="g/s",
        reference=lambda given, earlier: (
            given["seat_coefficient"] * earlier["seat-area"] * _ideal(given)
        ),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=3.0,
        high=80.0,
        points=2,
        outcomes=("FLT-4",),
        follows=("seat-area",),
        slips=(
            Slip(
                "no-coefficient",
                lambda given, earlier: earlier["seat-area"] * _ideal(given),
                0.5,
                "The discharge coefficient is missing: the jet is narrower than the hole.",
            ),
            Slip(
                "no-two",
                lambda given, earlier: (
                    given["seat_coefficient"] * earlier["seat-area"] * _ideal(given) / sqrt(2)
                ),
                0.5,
                "The 2 under the root is missing. It comes from half m v², Bernoulli's equation.",
            ),
            Slip(
                "absolute-pressure",
                lambda given, earlier: (
                    given["seat_coefficient"]
                    * earlier["seat-area"]
                    * sqrt(2 * given["fuel_density"] * (given["supply_pressure"] + 101_325.0))
                ),
                0.5,
                "You took the absolute pressure. What drives the fuel is the difference between "
                "inlet and bowl, and that is what the gauge shows.",
            ),
            Slip(
                "water-for-fuel",
                lambda given, earlier: (
                    given["seat_coefficient"]
                    * earlier["seat-area"]
                    * sqrt(2 * 1000.0 * given["supply_pressure"])
                ),
                0.5,
                "You took the density of water. What flows is petrol.",
            ),
        ),
        hints=(
            "Everything under one root: 2, density and pressure.",
            "Keep the units on; at the end ask for .to('g/s').",
        ),
    ),
    Exercise(
        id="starving-pressure",
        ask="The pump grows weak. At what gauge pressure does the wide open seat pass just what "
        "the engine drinks at full load? Below that the bowl runs dry on the long hill. Flow "
        "goes with the root of the pressure.",
        unit="psi",
        reference=lambda given, earlier: (
            given["supply_pressure"]
            * (earlier["full-load-demand"] / earlier["inlet-capacity"]) ** 2
        ),
        tolerance=0.04,
        why="The flow is squared here, which doubles every error brought along.",
        low=0.02,
        high=4.5,
        points=3,
        outcomes=("FLT-4", "FLT-5"),
        follows=("full-load-demand", "inlet-capacity"),
        datum="gauge",
        slips=(
            Slip(
                "no-square",
                lambda given, earlier: (
                    given["supply_pressure"]
                    * earlier["full-load-demand"]
                    / earlier["inlet-capacity"]
                ),
                0.5,
                "You scaled the pressure as the flow. Half the flow needs a quarter of the "
                "pressure: square the ratio.",
            ),
            Slip(
                "root-for-square",
                lambda given, earlier: (
                    given["supply_pressure"]
                    * sqrt(earlier["full-load-demand"] / earlier["inlet-capacity"])
                ),
                0.5,
                "You took the root where the square belongs: flow goes with the root of "
                "pressure, so pressure goes with the square of flow.",
            ),
            Slip(
                "ratio-upside-down",
                lambda given, earlier: (
                    given["supply_pressure"]
                    * (earlier["inlet-capacity"] / earlier["full-load-demand"]) ** 2
                ),
                0.5,
                "The ratio is upside down: the engine drinks less than the seat can pass, so a "
                "lower pressure is enough.",
            ),
        ),
        hints=("Ratio of flows first, demand over capacity. Then square it.",),
    ),
)
