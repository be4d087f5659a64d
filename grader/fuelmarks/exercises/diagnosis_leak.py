"""Unit 12, what a loose hose does: air past the carburettor, and the mixture that is left."""

from math import pi

from fuelcircuits.physics.gas_flow import mass_flow

from fuelmarks.exercises.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]


def _leak(given: Values, bore_factor: float = 1.0) -> float:
    """Return the air that a hole passes into the manifold [kg/s]."""
    area = pi / 4 * (bore_factor * given["hole_bore"]) ** 2
    return float(
        mass_flow(
            area,
            given["outside_pressure"],
            given["inside_pressure"],
            given["air_temperature"],
            given["hole_coefficient"],
        )
    )


EXERCISES = (
    Exercise(
        id="leak-air",
        ask="A hose has come off and leaves a hole of **{hole_bore}** open to the manifold, "
        "discharge coefficient **{hole_coefficient}**. Outside there are **{outside_pressure}** "
        "and **{air_temperature}**, inside **{inside_pressure}**, both absolute. Is the pressure "
        "inside below 0.53 of that outside? Then what mass of air comes in?",
        unit="g/s",
        reference=lambda given, earlier: _leak(given),
        tolerance=0.02,
        why="The bore of a torn hose is hardly ever known better than to one part in a hundred.",
        low=0.1,
        high=5.0,
        points=3,
        outcomes=("DIA-3", "AIR-1"),
        slips=(
            Slip(
                "diameter-for-radius",
                lambda given, earlier: _leak(given, 2.0),
                0.5,
                "Four times too much: the bore is a diameter. Halve it before you square it.",
            ),
            Slip(
                "inside-pressure",
                lambda given, earlier: (
                    _leak(given) * given["inside_pressure"] / given["outside_pressure"]
                ),
                0.5,
                "You took the pressure inside. The air comes from outside: at the speed of sound "
                "only the pressure before the hole counts.",
            ),
            Slip(
                "coefficient-left-out",
                lambda given, earlier: _leak(given) / given["hole_coefficient"],
                0.5,
                "The discharge coefficient is missing: the stream is narrower than the hole.",
            ),
        ),
        hints=(
            "Compare the two pressures first. Is the hole at the speed of sound?",
            "Then the flow is 0.0404 times C times A times p over the root of T, all in SI.",
        ),
    ),
    Exercise(
        id="leaned-lambda",
        ask="Before the hose came off the idle drew **{idle_air}** of air at a lambda of "
        "**{idle_lambda}**. The carburettor still gives the same fuel and passes the same air; the "
        "air of the hole comes on top. What is lambda now?",
        unit="",
        reference=lambda given, earlier: (
            given["idle_lambda"] * (1 + earlier["leak-air"] / given["idle_air"])
        ),
        tolerance=0.02,
        why="A shop's analyser is good to about two parts in a hundred.",
        low=0.9,
        high=3.5,
        points=2,
        outcomes=("DIA-3", "MIX-1"),
        follows=("leak-air",),
        slips=(
            Slip(
                "leak-alone",
                lambda given, earlier: (
                    given["idle_lambda"] * earlier["leak-air"] / given["idle_air"]
                ),
                0.25,
                "That is the leak's own part. The air through the carburettor still comes as well.",
            ),
            Slip(
                "air-taken-away",
                lambda given, earlier: (
                    given["idle_lambda"] / (1 + earlier["leak-air"] / given["idle_air"])
                ),
                0.5,
                "It went richer for you. More air for the same fuel is leaner: lambda rises.",
            ),
        ),
        hints=("Lambda goes with air over fuel. The fuel stays; by what share does the air grow?",),
    ),
    Exercise(
        id="expected-minutes",
        ask="Two tests could settle a case. The quick one takes **{quick_minutes}** and settles "
        "it in **{quick_chance}** of such cases. If it does not, you make the slow one, "
        "**{slow_minutes}**, which always settles it. How long does it take on average?",
        unit="min",
        reference=lambda given, earlier: (
            given["quick_minutes"] + (1 - given["quick_chance"]) * given["slow_minutes"]
        ),
        tolerance=0.02,
        why="Nobody plans a shop's day closer than a minute.",
        low=3.0,
        high=60.0,
        points=2,
        outcomes=("DIA-2",),
        rounded_to=0.5,
        slips=(
            Slip(
                "always-both",
                lambda given, earlier: given["quick_minutes"] + given["slow_minutes"],
                0.5,
                "You always made both. The slow test is needed only when the quick one leaves it "
                "open.",
            ),
            Slip(
                "chance-turned-round",
                lambda given, earlier: (
                    given["quick_minutes"] + given["quick_chance"] * given["slow_minutes"]
                ),
                0.5,
                "You used the chance that the quick test settles it. The slow one is made in the "
                "other cases.",
            ),
        ),
        hints=("The quick test is always made. In what share of cases does the slow one follow?",),
    ),
)
