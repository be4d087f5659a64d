"""Unit 12, from units 05 and 10: the air of a loose hose, and the mixture that it leaves."""

from math import pi

from fuelcircuits.physics.openings.gas_flow import mass_flow

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

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
        ask="From unit 05. A hose has come off and leaves a hole of **{hole_bore}** open to the "
        "manifold, discharge coefficient **{hole_coefficient}**. Outside there are "
        "**{outside_pressure}** and **{air_temperature}**, inside **{inside_pressure}**, both "
        "absolute. Is the flow choked? Then what mass of air comes in each second?",
        unit="g/s",
        reference=lambda given, earlier: _leak(given),
        tolerance=0.02,
        why="The bore of a torn hose is hardly ever known better than to one part in a hundred.",
        low=0.1,
        high=5.0,
        points=3,
        outcomes=("DIA-3",),
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
            "Below 0.528 of the pressure outside the flow is choked: compare the two first.",
            "Then the flow is 0.0404 times C times A times p over the root of T, all in SI.",
        ),
    ),
    Exercise(
        id="leaned-lambda",
        ask="From unit 10. Before the hose came off, the idle drew **{idle_air}** of air at a "
        "lambda of **{idle_lambda}**. The carburettor still gives the same fuel and passes the "
        "same air, and the air of the hole comes on top. What is lambda now?",
        unit="",
        reference=lambda given, earlier: (
            given["idle_lambda"] * (1 + earlier["leak-air"] / given["idle_air"])
        ),
        tolerance=0.02,
        why="A shop's analyser is good to about two parts in a hundred.",
        low=0.9,
        high=3.5,
        points=2,
        outcomes=("DIA-3",),
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
)
