"""Questions from units 02 and 03 that unit 04 asks again."""

from dataclasses import replace
from math import pi

from fuelmarks.questions.bowl_vents import mixture as bowl_mixture
from fuelmarks.questions.frame.exercise import Exercise, Given, Slip

__all__ = ["HUNG_VENT", "HUNG_VENT_GIVENS", "PUMP_PUSH", "PUMP_PUSH_GIVENS"]

HUNG_VENT_GIVENS = (
    Given("cruise_ratio", "air to fuel at a cruise", "", low=14.6, high=15.8, step=0.1),
    Given("booster_drop", "booster below the horn", "inH2O", low=5.0, high=10.0, step=0.5),
    Given("cleaner_loss", "lost in the air cleaner", "inH2O", low=1.2, high=2.6, step=0.1),
)

HUNG_VENT = replace(
    next(one for one in bowl_mixture.EXERCISES if one.id == "hung-ratio"),
    id="hung-vent",
    ask="From unit 03. At a cruise the mixture is **{cruise_ratio}** to 1. The booster is "
    "**{booster_drop}** below the air horn, and the horn is **{cleaner_loss}** below the air "
    "outside. Now the outside vent hangs wide open, so the bowl feels the air outside. What is "
    "the air-fuel ratio, if the air flow stays the same?",
    points=2,
)

PUMP_PUSH_GIVENS = (
    Given("supply_pressure", "pump, gauge", "psi", low=4.0, high=6.0, step=0.1),
    Given("seat_bore", "bore of the inlet's seat", "mm", low=2.0, high=2.6, step=0.1),
)

PUMP_PUSH = Exercise(
    id="pump-push",
    ask="From unit 02. The pump holds **{supply_pressure}** on its gauge, the inlet's seat has a "
    "bore of **{seat_bore}**, and the bowl is open to the air. How hard does the fuel push on "
    "the shut needle?",
    unit="N",
    reference=lambda given, earlier: given["supply_pressure"] * pi / 4 * given["seat_bore"] ** 2,
    tolerance=0.02,
    why="Three figures are enough.",
    low=0.05,
    high=0.4,
    points=2,
    outcomes=("FLT-1", "SHOP-3"),
    slips=(
        Slip(
            "diameter-for-radius",
            lambda given, earlier: given["supply_pressure"] * pi * given["seat_bore"] ** 2,
            0.5,
            "Four times too much: the radius is half the bore.",
        ),
        Slip(
            "absolute-pressure",
            lambda given, earlier: (
                (given["supply_pressure"] + 101_325.0) * pi / 4 * given["seat_bore"] ** 2
            ),
            0.5,
            "You took the absolute pressure, but the outside air pushes from the bowl's side too, "
            "so only the gauge pressure counts.",
        ),
    ),
    hints=("The force is the pressure times the area of the seat's bore.",),
)
