"""A question on the float circuit, asked again in unit 09 so that it is not forgotten."""

from math import sqrt

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip, Values

__all__ = ["GIVENS", "WEAK_PUMP"]

GIVENS = (
    Given("good_pressure", "pump when new, gauge", "psi", low=4.5, high=6.0, step=0.1),
    Given("good_flow", "wide open seat at that pressure", "g/s", low=15.0, high=28.0, step=0.5),
    Given("weak_pressure", "pump now, gauge", "psi", low=1.0, high=2.2, step=0.1),
)


def _ratio(given: Values) -> float:
    """Return the weak pump's pressure over the good one's [1]."""
    return given["weak_pressure"] / given["good_pressure"]


WEAK_PUMP = Exercise(
    id="weak-pump",
    ask="From unit 02. With the fuel pump at {good_pressure} (gauge), the needle's seat passes "
    "**{good_flow}** when it is wide open. The pump has grown old and holds only "
    "**{weak_pressure}**. What does the wide open seat pass now?",
    unit="g/s",
    reference=lambda given, earlier: given["good_flow"] * sqrt(_ratio(given)),
    tolerance=0.02,
    why="Three figures are enough; a fuel gauge is seldom better than two in a hundred.",
    low=2.0,
    high=40.0,
    points=2,
    outcomes=("FLT-4", "FLT-5"),
    slips=(
        Slip(
            "in-proportion",
            lambda given, earlier: given["good_flow"] * _ratio(given),
            0.5,
            "You scaled the flow in proportion to the pressure. A quarter of the pressure still "
            "gives half the flow, because flow goes with the root.",
        ),
        Slip(
            "square-for-root",
            lambda given, earlier: given["good_flow"] * _ratio(given) ** 2,
            0.5,
            "You squared the ratio of the pressures. It is the other way round, because flow goes "
            "with the root.",
        ),
        Slip(
            "ratio-upside-down",
            lambda given, earlier: given["good_flow"] / sqrt(_ratio(given)),
            0.5,
            "The ratio is upside down: a weak pump passes less fuel, not more.",
        ),
    ),
    hints=("Find the ratio of the two pressures first, then take its root.",),
)
