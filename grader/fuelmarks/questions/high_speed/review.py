"""A question from unit 02 that unit 06 asks again, so that it is not forgotten."""

from math import pi

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip, Values

__all__ = ["SEAT_FORCE", "SEAT_FORCE_GIVENS"]

SEAT_FORCE_GIVENS = (
    Given("needle_seat", "bore of the needle seat", "mm", low=2.0, high=2.8, step=0.1),
    Given("pump_pressure", "fuel pump, gauge", "psi", low=4.0, high=6.5, step=0.1),
)


def _force(given: Values) -> float:
    """Return the fuel's push on the shut needle [N]."""
    return given["pump_pressure"] * pi * given["needle_seat"] ** 2 / 4


SEAT_FORCE = Exercise(
    id="seat-force",
    ask="From unit 02. The fuel pump holds **{pump_pressure}** on its gauge, the seat has a bore "
    "of **{needle_seat}**, and the bowl is open to the air. How hard does the fuel push on the "
    "shut needle?",
    unit="N",
    reference=lambda given, earlier: _force(given),
    tolerance=0.02,
    why="Three figures are enough; a fuel pressure gauge is hardly better.",
    low=0.03,
    high=1.5,
    points=2,
    outcomes=("FLT-1", "SHOP-2"),
    slips=(
        Slip(
            "diameter-for-radius",
            lambda given, earlier: 4 * _force(given),
            0.5,
            "That is four times too much, because the formula with pi r² wants the radius, which "
            "is half the bore.",
        ),
        Slip(
            "absolute-pressure",
            lambda given, earlier: _force(given) * (1 + 101_325.0 / given["pump_pressure"]),
            0.5,
            "You took the absolute pressure, but the air presses from the bowl's side too, so "
            "only the gauge pressure counts.",
        ),
    ),
    hints=("The force is the pressure times the area of the bore.",),
)
