"""Questions from units 00 and 01, asked again in later units so that they are not forgotten."""

from math import pi

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip, Values

__all__ = ["AIR_DEMAND", "AIR_DEMAND_GIVENS", "MANIFOLD_PRESSURE", "MANIFOLD_PRESSURE_GIVENS"]

MANIFOLD_PRESSURE_GIVENS = (
    Given("ambient_pressure", "barometer in the shop", "inHg", low=28.6, high=30.2, step=0.1),
    Given("manifold_vacuum", "vacuum gauge at warm idle", "inHg", low=16.0, high=20.0, step=0.5),
)

MANIFOLD_PRESSURE = Exercise(
    id="manifold-pressure",
    ask="From unit 00. The vacuum gauge on the manifold reads **{manifold_vacuum}**, the "
    "barometer on the wall **{ambient_pressure}**. What is the absolute pressure in the manifold?",
    unit="kPa",
    reference=lambda given, earlier: given["ambient_pressure"] - given["manifold_vacuum"],
    tolerance=0.02,
    why="A vacuum gauge is good to about half an inch of mercury.",
    low=15.0,
    high=60.0,
    points=2,
    outcomes=("SHOP-1", "SHOP-3"),
    datum="absolute",
    slips=(
        Slip(
            "vacuum-as-pressure",
            lambda given, earlier: given["manifold_vacuum"],
            0.25,
            "That is the vacuum itself, which only says how far the manifold lies below the air "
            "outside. Count down from the barometer.",
        ),
        Slip(
            "vacuum-added",
            lambda given, earlier: given["ambient_pressure"] + given["manifold_vacuum"],
            0.5,
            "You added the vacuum, but a vacuum lies below the pressure outside, so subtract it.",
        ),
    ),
    hints=(
        "A vacuum gauge reads zero while the engine is off. What is the absolute pressure in the "
        "manifold then?",
    ),
)

AIR_DEMAND_GIVENS = (
    Given("displacement", "all cylinders together", "l", low=2.4, high=5.2, step=0.1),
    Given(
        "engine_speed",
        "speed in the test, turns a minute",
        "1/min",
        low=1600.0,
        high=3200.0,
        step=50.0,
    ),
    Given("volumetric_efficiency", "how well it fills", "", low=0.70, high=0.86, step=0.01),
    Given("air_density", "air in the shop", "kg/m^3", low=1.12, high=1.24, step=0.01),
)


def _air_demand(given: Values) -> float:
    """Return the mass of air that a four-stroke engine draws [kg/s]."""
    strokes = given["engine_speed"] / 2
    filled = given["displacement"] * given["volumetric_efficiency"]
    return strokes * filled * given["air_density"]


AIR_DEMAND = Exercise(
    id="air-demand",
    ask="From unit 01. A four-stroke engine of **{displacement}** turns at **{engine_speed}** "
    "(turns a minute). Its volumetric efficiency is **{volumetric_efficiency}**, the "
    "density of the air **{air_density}**. What mass of air does it draw?",
    unit="g/s",
    reference=lambda given, earlier: _air_demand(given),
    tolerance=0.02,
    why="Three figures are enough; volumetric efficiency is hardly ever known better.",
    low=10.0,
    high=150.0,
    points=2,
    outcomes=("AIR-1",),
    slips=(
        Slip(
            "every-turn",
            lambda given, earlier: 2 * _air_demand(given),
            0.5,
            "Twice too much, because a four-stroke engine fills its cylinders once in two turns.",
        ),
        Slip(
            "filled-completely",
            lambda given, earlier: _air_demand(given) / given["volumetric_efficiency"],
            0.5,
            "The volumetric efficiency is missing. It counts because the cylinders never fill "
            "completely.",
        ),
        Slip(
            "radians-for-turns",
            lambda given, earlier: 2 * pi * _air_demand(given),
            0.5,
            "Rather more than six times too much, because the computer counts the unit rpm in "
            "radians. Write Q(2000, '1/min') for 2000 turns a minute.",
        ),
    ),
    hints=(
        "Half the number of turns in a second says how often the whole displacement is filled.",
        "Multiply the volume for each second by the efficiency and by the density of the air.",
    ),
)
