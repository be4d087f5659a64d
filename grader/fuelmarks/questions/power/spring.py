"""Unit 07, second chain: the spring under the piston against the vacuum that pulls it down."""

from math import pi

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

VACUUM_GAUGE = "A vacuum gauge is read to about a quarter of an inch of mercury."


def _piston(given: Values) -> float:
    """Return the area of the piston [m2]."""
    return pi * given["piston_bore"] ** 2 / 4


def _fall(given: Values) -> float:
    """Return the vacuum that the spring's slackening is worth [Pa]."""
    return given["power_rate"] * given["rod_travel"] / _piston(given)


def _shim(given: Values, vacuum: float) -> float:
    """Return the shim that is worth so much more vacuum [m]."""
    return vacuum * _piston(given) / given["power_rate"]


EXERCISES = (
    Exercise(
        id="lift-vacuum",
        ask="Manifold vacuum pulls the piston of **{piston_bore}** bore down, while the outside "
        "air stands on its other side. With the rod down, the spring pushes up with "
        "**{power_spring}**. Below which manifold vacuum does the rod begin to lift, if you "
        "leave out weight and friction?",
        unit="inHg",
        reference=lambda given, earlier: given["power_spring"] / _piston(given),
        tolerance=0.02,
        why=VACUUM_GAUGE,
        low=5.0,
        high=14.0,
        points=2,
        outcomes=("PWR-3", "SHOP-1"),
        rounded_to=0.1,
        slips=(
            Slip(
                "diameter-for-radius",
                lambda given, earlier: given["power_spring"] / _piston(given) / 4,
                0.5,
                "That is four times too little, because with pi r² the radius counts, which is "
                "half the bore.",
            ),
            Slip(
                "square-for-circle",
                lambda given, earlier: given["power_spring"] / given["piston_bore"] ** 2,
                0.5,
                "You took a square piston, but a round one has only pi/4 of that area.",
            ),
        ),
        hints=(
            "At that vacuum pull and push are equal, so the vacuum times the area is the spring's "
            "force.",
            "Ask for .to('inHg') at the end, because the gauge reads inches of mercury.",
        ),
    ),
    Exercise(
        id="full-up-vacuum",
        ask="As the rod rises by **{rod_travel}**, the spring grows longer and pushes less; its "
        "rate is **{power_rate}**. At which vacuum does the rod reach the top of its travel?",
        unit="inHg",
        reference=lambda given, earlier: earlier["lift-vacuum"] - _fall(given),
        tolerance=0.03,
        why=VACUUM_GAUGE,
        low=1.5,
        high=9.0,
        points=2,
        outcomes=("PWR-3",),
        follows=("lift-vacuum",),
        rounded_to=0.1,
        slips=(
            Slip(
                "stiffer-when-longer",
                lambda given, earlier: earlier["lift-vacuum"] + _fall(given),
                0.5,
                "The spring is squeezed less when the rod is up, so it pushes less and a smaller "
                "vacuum balances it.",
            ),
            Slip(
                "fall-alone",
                lambda given, earlier: _fall(given),
                0.5,
                "That is only by how much the vacuum must fall further, so take it off from where "
                "the rod began to lift.",
            ),
        ),
        hints=(
            "Over the travel the spring loses its rate times the travel.",
            "Turn that force into a vacuum on the same piston, and subtract it.",
        ),
    ),
    Exercise(
        id="spring-shim",
        ask="The engine pinks on long hills, so the rod shall begin to lift at "
        "**{wanted_vacuum}** already. A shim under the spring squeezes it by the shim's own "
        "thickness. How thick a shim does it take?",
        unit="mm",
        reference=lambda given, earlier: _shim(
            given, given["wanted_vacuum"] - earlier["lift-vacuum"]
        ),
        tolerance=0.05,
        why="It comes from a small difference of two vacuums; shims go by tenths of a millimetre.",
        low=0.3,
        high=3.5,
        points=3,
        outcomes=("PWR-3",),
        follows=("lift-vacuum",),
        rounded_to=0.1,
        slips=(
            Slip(
                "whole-vacuum",
                lambda given, earlier: _shim(given, given["wanted_vacuum"]),
                0.5,
                "You built the whole force out of shim, but the spring already has most of it.",
            ),
            Slip(
                "full-travel",
                lambda given, earlier: (
                    _shim(given, given["wanted_vacuum"] - earlier["lift-vacuum"])
                    + given["rod_travel"]
                ),
                0.25,
                "The travel does not belong here, because the rod is still down when it begins to "
                "lift.",
            ),
        ),
        hints=(
            "Work out by how much more the spring must push while the rod is down.",
            "A spring that is squeezed further by x pushes harder by its rate times x.",
        ),
    ),
)
