"""Unit 10, what another fuel does to the mixture, and what a mixture costs."""

from math import pi

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["ETHANOL_DENSITY", "ETHANOL_RATIO", "EXERCISES", "PETROL_RATIO"]

PETROL_RATIO, ETHANOL_RATIO = 14.6, 9.0
"""Parts of air that just burn one of fuel [1]: Heywood 1988, table D.4 (from memory)."""
ETHANOL_DENSITY = 794.0
"""Density of ethanol at 15 °C [kg/m3], rounded from `physics.blend`."""
ONE_PLACE = "The trade writes one digit after the point."


def _ethanol_by_mass(given: Values) -> float:
    """Return ethanol's share of the blend's mass [1]."""
    ethanol = given["ethanol"] * ETHANOL_DENSITY
    return ethanol / (ethanol + (1 - given["ethanol"]) * given["petrol_density"])


def _mixed(given: Values, share: float) -> float:
    """Return the air for a blend that is `share` ethanol by mass [1]."""
    return share * ETHANOL_RATIO + (1 - share) * PETROL_RATIO


def _work_flow(given: Values, turn: float = 2 * pi) -> float:
    """Return power, if a turn is `turn` radians [W]."""
    return given["torque"] * given["test_speed"] * turn


EXERCISES = (
    Exercise(
        id="blend-ratio",
        ask="A blend is **{ethanol}** ethanol by volume. Ethanol weighs 794 kg/m³ and the petrol "
        "in the blend **{petrol_density}**. One part of petrol takes 14.6 parts of air and one "
        "part of ethanol 9.0, all by mass. How many parts of air just burn one part of the blend?",
        unit="",
        reference=lambda given, earlier: _mixed(given, _ethanol_by_mass(given)),
        tolerance=0.005,
        why=ONE_PLACE,
        low=5.0,
        high=30.0,
        points=2,
        outcomes=("MIX-1", "MIX-3"),
        rounded_to=0.1,
        slips=(
            Slip(
                "shares-swapped",
                lambda given, earlier: _mixed(given, 1 - _ethanol_by_mass(given)),
                0.5,
                "The two shares are swapped: the share of ethanol belongs with the air that "
                "ethanol needs.",
            ),
            Slip(
                "plain-mean",
                lambda given, earlier: (PETROL_RATIO + ETHANOL_RATIO) / 2,
                0.25,
                "You took the plain mean of the two ratios, which would be right only if the "
                "blend were half of each by mass.",
            ),
            Slip(
                "petrol-only",
                lambda given, earlier: PETROL_RATIO,
                0.25,
                "That is the ratio for petrol without any ethanol in it.",
            ),
        ),
        hints=(
            "Imagine a cubic metre of the blend: how many kilograms of ethanol and of petrol does "
            "it contain?",
            "Then multiply each share of the mass by the air that this part needs, and add the "
            "two.",
        ),
    ),
    Exercise(
        id="blend-lambda",
        ask="A carburettor was set to **{set_ratio}** to one on petrol. With the blend in the "
        "tank it still delivers that ratio by mass, if you leave out the small change in the flow "
        "of the jets. What is lambda on the blend?",
        unit="",
        reference=lambda given, earlier: given["set_ratio"] / earlier["blend-ratio"],
        tolerance=0.006,
        why="It inherits the rounding of the blend's ratio.",
        low=0.6,
        high=1.8,
        points=2,
        outcomes=("MIX-3",),
        follows=("blend-ratio",),
        slips=(
            Slip(
                "upside-down",
                lambda given, earlier: earlier["blend-ratio"] / given["set_ratio"],
                0.5,
                "Your ratio is upside down: lambda is the air that is there, divided by the air "
                "that is needed.",
            ),
            Slip(
                "against-petrol",
                lambda given, earlier: given["set_ratio"] / PETROL_RATIO,
                0.5,
                "That was lambda on petrol. The blend needs less air, so the same air is now more "
                "than before.",
            ),
        ),
        hints=(
            "Divide the air delivered for each part of fuel by the air that this part of fuel "
            "needs.",
        ),
    ),
    Exercise(
        id="fuel-for-work",
        ask="On the dynamometer the engine gives **{torque}** at **{test_speed}** (turns a "
        "minute) while it burns **{fuel_flow}** of fuel. How much fuel does it take for each "
        "kilowatt-hour of work? Power is torque times the angle turned in each second, and a "
        "whole turn is 2 pi.",
        unit="g/kWh",
        reference=lambda given, earlier: given["fuel_flow"] / _work_flow(given),
        tolerance=0.02,
        why="Three figures are enough; a brake is seldom better than one in a hundred.",
        low=240.0,
        high=420.0,
        points=3,
        outcomes=("MIX-4", "SHOP-1"),
        slips=(
            Slip(
                "no-two-pi",
                lambda given, earlier: given["fuel_flow"] / _work_flow(given, 1.0),
                0.5,
                "You counted turns as if they were angles, but one turn is 2 pi radians.",
            ),
            Slip(
                "two-pi-twice",
                lambda given, earlier: given["fuel_flow"] / _work_flow(given, 4 * pi**2),
                0.5,
                "The unit rpm already contains 2 pi, and you multiplied by it once more.",
            ),
            Slip(
                "half-the-turns",
                lambda given, earlier: given["fuel_flow"] / _work_flow(given, pi),
                0.5,
                "You halved the speed. A cylinder draws air only in every second turn, but the "
                "torque works in all of them.",
            ),
        ),
        hints=(
            "Find the power in kW first, then divide the fuel flow by it.",
            "Keep the units on, and end with .to('g/kWh').",
        ),
    ),
)
