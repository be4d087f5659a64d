"""A question from unit 04 that unit 05 asks again, so that it is not forgotten."""

from fuelmarks.questions.frame.exercise import Exercise, Given, Slip

__all__ = ["IDLE_FUEL", "IDLE_FUEL_GIVENS"]

IDLE_FUEL_GIVENS = (
    Given("idle_air", "air at idle, both barrels", "g/s", low=3.8, high=6.6, step=0.1),
    Given("idle_ratio", "air to fuel at idle", "", low=12.6, high=14.4, step=0.2),
)

IDLE_FUEL = Exercise(
    id="idle-fuel",
    ask="From unit 04. At idle the engine draws **{idle_air}** of air through both barrels "
    "together, with **{idle_ratio}** parts of air to one of fuel, by mass. How much fuel must "
    "the low-speed circuit of **one** barrel give?",
    unit="g/s",
    reference=lambda given, earlier: given["idle_air"] / given["idle_ratio"] / 2,
    tolerance=0.02,
    why="Three figures are enough; nobody knows an idle's air flow better.",
    low=0.05,
    high=1.0,
    points=2,
    outcomes=("OFF-2", "SHOP-1"),
    slips=(
        Slip(
            "both-barrels",
            lambda given, earlier: given["idle_air"] / given["idle_ratio"],
            0.5,
            "That is the fuel of both barrels together, although each has a circuit of its own.",
        ),
        Slip(
            "share-of-mixture",
            lambda given, earlier: given["idle_air"] / (given["idle_ratio"] + 1) / 2,
            0.5,
            "You divided by air and fuel together. The ratio is air to fuel alone, so divide the "
            "air by it as it stands.",
        ),
        Slip(
            "multiplied",
            lambda given, earlier: given["idle_air"] * given["idle_ratio"] / 2,
            0.25,
            "There is far less fuel than air, so divide by the ratio instead of multiplying.",
        ),
    ),
    hints=("Work out the fuel of the whole engine first, and then take half of it.",),
)
