"""Two questions on what a trainee brings along from school, since unit 00 has no unit before."""

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip, Values

__all__ = ["BURETTE", "BURETTE_GIVENS", "ETHANOL", "ETHANOL_GIVENS"]

BURETTE_GIVENS = (
    Given("burette", "fuel used in a run", "ml", low=40.0, high=100.0, step=5.0),
    Given("run_time", "length of that run", "s", low=40.0, high=120.0, step=5.0),
    Given("fuel_density", "petrol in the burette", "kg/m^3", low=725.0, high=770.0, step=5.0),
)


def _flow(given: Values, density: float) -> float:
    return given["burette"] / given["run_time"] * density


BURETTE = Exercise(
    id="burette-flow",
    ask="From school: volume, mass and time. An engine draws **{burette}** of petrol out of a "
    "burette (a measuring glass) in **{run_time}**, and the petrol has a density of "
    "**{fuel_density}**. What mass of fuel does the engine use for each unit of time?",
    unit="g/s",
    reference=lambda given, earlier: _flow(given, given["fuel_density"]),
    tolerance=0.02,
    why="Three figures are enough.",
    low=0.1,
    high=3.0,
    points=2,
    outcomes=("SHOP-5",),
    slips=(
        Slip(
            "water-for-fuel",
            lambda given, earlier: _flow(given, 1000.0),
            0.5,
            "You counted a millilitre as a gram, which is true of water. Petrol is lighter, so "
            "multiply by its density.",
        ),
        Slip(
            "density-upside-down",
            lambda given, earlier: _flow(given, 1000.0**2 / given["fuel_density"]),
            0.5,
            "You divided by the density, but mass is volume multiplied by density.",
        ),
    ),
    hints=("Divide the volume by the time, and multiply the result by the density.",),
)

ETHANOL_GIVENS = (
    Given("sample", "petrol in the glass", "ml", low=80.0, high=100.0, step=5.0),
    Given("water_added", "water added", "ml", choices=(10.0, 12.0, 15.0)),
    Given("layer", "water layer when settled", "ml", low=19.0, high=26.0, step=1.0),
)


def _drawn_out(given: Values) -> float:
    return given["layer"] - given["water_added"]


ETHANOL = Exercise(
    id="ethanol-share",
    ask="From school: percent. In a tall glass **{water_added}** of water are shaken with "
    "**{sample}** of petrol. The water takes up the ethanol that was mixed with the petrol, and "
    "then settles with it at the bottom as a layer of **{layer}**. What percentage of the petrol "
    "was ethanol?",
    unit="percent",
    reference=lambda given, earlier: _drawn_out(given) / given["sample"],
    tolerance=0.02,
    why="A measuring glass is read to half a millilitre.",
    low=3.0,
    high=25.0,
    points=2,
    outcomes=("SHOP-5",),
    rounded_to=0.2,
    slips=(
        Slip(
            "whole-layer",
            lambda given, earlier: given["layer"] / given["sample"],
            0.5,
            "The layer also contains the water that you added, so subtract that before you divide.",
        ),
        Slip(
            "share-of-the-glass",
            lambda given, earlier: _drawn_out(given) / (given["sample"] + given["water_added"]),
            0.5,
            "You divided by petrol and water together, but the question asks for a share of the "
            "petrol alone.",
        ),
    ),
    hints=(
        "Find how much the layer has gained beyond the water, and divide that by the volume of "
        "petrol.",
    ),
)
