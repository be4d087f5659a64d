"""Unit 10, from what the fuel is made of and what the analyser shows to lambda."""

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES", "OXYGEN_OF_AIR", "TABLE"]

OXYGEN_OF_AIR = 0.231
"""Share of oxygen in the mass of air, as the unit's textbook takes it [1]."""
TABLE = {0.90: 0.037, 0.95: 0.018}
"""Carbon monoxide [1] in the dry exhaust at lambda, from `physics.analyser`, rounded."""
WATER_GAS = 3.5
"""Constant of the water-gas reaction in Brettschneider's formula [1]."""


def _oxygen(given: Values) -> float:
    """Return the oxygen that burns a unit mass of the fuel [1]."""
    return given["carbon"] * 32 / 12 + (1 - given["carbon"]) * 8


def _lambda(
    given: Values, *, monoxide: float = 0.5, left: float = 1.0, water_gas: float = WATER_GAS
) -> float:
    """Return lambda by the oxygen balance; the keywords let a slip bend it."""
    co2, co, quarter = given["co2_reading"], given["co_reading"], given["hydrogen_atoms"] / 4
    water = quarter * water_gas / (water_gas + co / co2)
    found = co2 + monoxide * co + left * given["o2_reading"] + water * (co2 + co)
    return found / ((1 + quarter) * (co2 + co))


def _between(given: Values, share: float) -> float:
    """Return lambda at `share` of the way from the first row of the table to the second."""
    rich, lean = TABLE
    return rich + (lean - rich) * share


def _way(given: Values) -> float:
    """Return how far along the table's step the reading lies, from rich to lean [1]."""
    high, low = TABLE.values()
    return (high - given["cruise_co"]) / (high - low)


EXERCISES = (
    Exercise(
        id="just-right-ratio",
        ask="A fuel is **{carbon}** carbon by mass, and the rest is hydrogen. A gram of carbon "
        "combines with 32/12 g of oxygen, while a gram of hydrogen takes 8 g, and air is 23.1 % "
        "oxygen by mass. How many parts of air just burn one part of this fuel, by mass?",
        unit="",
        reference=lambda given, earlier: _oxygen(given) / OXYGEN_OF_AIR,
        tolerance=0.005,
        why="The trade writes one digit after the point; fuels differ by less than that.",
        low=5.0,
        high=30.0,
        points=2,
        outcomes=("MIX-1",),
        rounded_to=0.1,
        slips=(
            Slip(
                "oxygen-for-air",
                lambda given, earlier: _oxygen(given),
                0.5,
                "That is the oxygen alone. Less than a quarter of the air is oxygen, so much more "
                "air than oxygen is needed.",
            ),
            Slip(
                "share-by-volume",
                lambda given, earlier: _oxygen(given) / 0.209,
                0.5,
                "You took the share of oxygen by volume, while everything else in this question "
                "is by mass.",
            ),
            Slip(
                "no-hydrogen",
                lambda given, earlier: given["carbon"] * 32 / 12 / OXYGEN_OF_AIR,
                0.5,
                "Only the carbon burns in your calculation. The hydrogen takes oxygen too, three "
                "times as much for each gram as carbon does.",
            ),
        ),
        hints=(
            "Add the oxygen for the carbon and the oxygen for the hydrogen, then work out how "
            "much air contains that much oxygen.",
        ),
    ),
    Exercise(
        id="gas-lambda",
        ask="At warm idle the analyser shows CO₂ **{co2_reading}**, CO **{co_reading}** and O₂ "
        "**{o2_reading}**, and you may leave the little HC out. The fuel has **{hydrogen_atoms}** "
        "hydrogen atoms for each carbon atom, which is the y of the formula. What is lambda by "
        "the formula of this unit?",
        unit="",
        reference=lambda given, earlier: _lambda(given),
        tolerance=0.004,
        why="An analyser of the workshop kind is good to about a hundredth of lambda.",
        low=0.6,
        high=1.6,
        points=3,
        outcomes=("MIX-2",),
        slips=(
            Slip(
                "whole-monoxide",
                lambda given, earlier: _lambda(given, monoxide=1.0),
                0.5,
                "CO holds one oxygen atom where CO₂ holds two, so above the line only half of the "
                "CO counts.",
            ),
            Slip(
                "no-oxygen-left",
                lambda given, earlier: _lambda(given, left=0.0),
                0.5,
                "The oxygen that is left over is missing above the line, although it was part of "
                "the air that went in.",
            ),
            Slip(
                "no-hydrogen-gas",
                lambda given, earlier: _lambda(given, water_gas=1e12),
                0.5,
                "The factor with 3.5 is missing. It is there because a rich engine leaves some of "
                "the hydrogen unburnt too.",
            ),
        ),
        hints=(
            "Work out y/4 and CO/CO₂ first and give them names, because both are needed more than "
            "once.",
            "Above the line stand CO₂, half of the CO, the O₂, and the oxygen that went into the "
            "water.",
        ),
    ),
    Exercise(
        id="cruise-lambda",
        ask="At a steady cruise the analyser shows **{cruise_co}** CO. According to the table of "
        "this unit, CO is 3.7 % at a lambda of 0.90 and 1.8 % at 0.95. If the values between lie "
        "on a straight line, what is lambda?",
        unit="",
        reference=lambda given, earlier: _between(given, _way(given)),
        tolerance=0.004,
        why="The CO of an engine is known to a few tenths of a per cent.",
        low=0.6,
        high=1.6,
        points=2,
        outcomes=("MIX-2",),
        slips=(
            Slip(
                "from-the-wrong-end",
                lambda given, earlier: _between(given, 1 - _way(given)),
                0.5,
                "You counted from the wrong end: less CO means a leaner mixture, and so a larger "
                "lambda.",
            ),
            Slip(
                "counted-from-nought",
                lambda given, earlier: _between(
                    given, 1 - given["cruise_co"] / (TABLE[0.90] - TABLE[0.95])
                ),
                0.5,
                "You took the whole CO reading as a share of the step. Take only the difference "
                "between the reading and the first row of the table.",
            ),
        ),
        hints=(
            "How far is the reading from the first row, as a share of the whole way to the "
            "second row?",
        ),
    ),
)
