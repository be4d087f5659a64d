"""Unit 07, first chain: the ring round a metering rod, and the mixture step it makes."""

from math import pi

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

THREE_FIGURES = "Three figures carry the chain; two in a hundred forgives rounding on the way."


def _ring(given: Values, rod: str) -> float:
    """Return the open area of the jet with that step of the rod in it [m2]."""
    return pi / 4 * (given["main_jet"] ** 2 - given[rod] ** 2)


def _ring_slips(rod: str) -> tuple[Slip, ...]:
    """Return what people do wrong with a ring."""
    return (
        Slip(
            "gap-as-a-bore",
            lambda given, earlier: pi / 4 * (given["main_jet"] - given[rod]) ** 2,
            0.5,
            "You subtracted the diameters before you squared them. Take the area of the jet "
            "first, and then take off the area of the rod.",
        ),
        Slip(
            "jet-without-rod",
            lambda given, earlier: pi / 4 * given["main_jet"] ** 2,
            0.25,
            "That is the bare jet, but the rod stands in it and fills a part of it.",
        ),
        Slip(
            "diameter-for-radius",
            lambda given, earlier: 4 * _ring(given, rod),
            0.5,
            "That is four times too much, because the formula with pi r² wants radii, which are "
            "half the diameters.",
        ),
    )


EXERCISES = (
    Exercise(
        id="ring-down",
        ask="The main jet has a bore of **{main_jet}**. When the rod is down, its thick step of "
        "**{lean_step}** stands in the jet. What area stays open round it?",
        unit="mm^2",
        reference=lambda given, earlier: _ring(given, "lean_step"),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.5,
        high=2.5,
        points=2,
        outcomes=("PWR-1", "SHOP-2"),
        slips=_ring_slips("lean_step"),
        hints=("The ring is the area of the jet, less the area of the rod.",),
    ),
    Exercise(
        id="ring-up",
        ask="The vacuum falls and the rod rises, until its thin step of **{rich_step}** stands in "
        "the same jet. What area is open now?",
        unit="mm^2",
        reference=lambda given, earlier: _ring(given, "rich_step"),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=0.7,
        high=3.0,
        points=1,
        outcomes=("PWR-1",),
        slips=_ring_slips("rich_step"),
        hints=(
            "Do the same sum with the thinner rod, and check that more stays open than before.",
        ),
    ),
    Exercise(
        id="mixture-step",
        ask="At full throttle, with the rod held down for a test, the ratio is "
        "**{rod_down_ratio}**. If the depression stays the same, the fuel goes with the open "
        "area. What is the ratio with the rod up?",
        unit="",
        reference=lambda given, earlier: (
            given["rod_down_ratio"] * earlier["ring-down"] / earlier["ring-up"]
        ),
        tolerance=0.02,
        why=THREE_FIGURES,
        low=11.0,
        high=14.0,
        points=2,
        outcomes=("PWR-2",),
        follows=("ring-down", "ring-up"),
        slips=(
            Slip(
                "upside-down",
                lambda given, earlier: (
                    given["rod_down_ratio"] * earlier["ring-up"] / earlier["ring-down"]
                ),
                0.5,
                "You made it leaner. More area is more fuel, and because fuel stands below the "
                "line in air to fuel, the ratio falls.",
            ),
            Slip(
                "rods-for-rings",
                lambda given, earlier: (
                    given["rod_down_ratio"] * given["rich_step"] / given["lean_step"]
                ),
                0.25,
                "You compared the rods, but what passes fuel is the ring that stays open round "
                "them.",
            ),
            Slip(
                "root",
                lambda given, earlier: (
                    given["rod_down_ratio"] * (earlier["ring-down"] / earlier["ring-up"]) ** 0.5
                ),
                0.5,
                "There is no root here, because the flow goes with the area itself. The root "
                "belongs to the pressure.",
            ),
        ),
        hints=("Twice the area would be twice the fuel, and therefore half the ratio.",),
    ),
)
