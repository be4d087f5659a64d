"""Unit 01, the throttle: how much of the bore a plate leaves open."""

from math import acos, cos, pi, radians, sin

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]


def _bore(given: Values) -> float:
    """Return the area of the throttle bore [m2]."""
    return pi / 4 * given["throttle_bore"] ** 2


def _open(given: Values) -> float:
    """Return the area the plate leaves open, its shaft left out [m2]."""
    shut = cos(given["closed_angle"])
    return _bore(given) * (1 - cos(given["open_angle"]) / shut)


def _angle(given: Values, area: float) -> float:
    """Return the angle at which the plate leaves `area` open [rad]."""
    left = cos(given["closed_angle"]) * (1 - area / _bore(given))
    return acos(max(-1.0, min(1.0, left)))


EXERCISES = (
    Exercise(
        id="open-area",
        ask="A throttle bore of **{throttle_bore}** has a plate that fills it at "
        "**{closed_angle}** from square across, and its shaft is neglected. When the plate stands "
        "at **{open_angle}**, its shadow covers a share of the bore which is cos(open) over "
        "cos(closed). What area is open?",
        unit="mm^2",
        reference=lambda given, earlier: _open(given),
        tolerance=0.02,
        why="Half a degree of the plate is more than this.",
        low=20.0,
        high=500.0,
        points=2,
        outcomes=("AIR-3", "SHOP-2"),
        slips=(
            Slip(
                "shadow",
                lambda given, earlier: _bore(given) - _open(given),
                0.5,
                "That is the area which the plate covers, but the question asks for what it leaves "
                "open.",
            ),
            Slip(
                "closed-angle-forgotten",
                lambda given, earlier: _bore(given) * (1 - cos(given["open_angle"])),
                0.5,
                "You treated the plate as shut when it stands square across. It shuts at its "
                "closed angle already, so divide by the cosine of that.",
            ),
            Slip(
                "sine-for-cosine",
                lambda given, earlier: _bore(given) * sin(given["open_angle"]),
                0.25,
                "You took the sine, but the shadow of a turning plate narrows as the cosine does.",
            ),
            Slip(
                "diameter-for-radius",
                lambda given, earlier: 4 * _open(given),
                0.5,
                "Four times too much, because the formula with pi r² wants the radius of the bore, "
                "not its diameter.",
            ),
        ),
        hints=(
            "After `from math import cos` you may write cos(open_angle), because the quantity "
            "knows that it is in degrees.",
        ),
    ),
    Exercise(
        id="angle-for-twice",
        ask="The engine now needs twice that open area. To which angle, measured from square "
        "across, must the plate turn?",
        unit="deg",
        reference=lambda given, earlier: _angle(given, 2 * earlier["open-area"]),
        tolerance=0.01,
        why="A protractor on a throttle lever reads to half a degree.",
        low=20.0,
        high=80.0,
        points=2,
        outcomes=("AIR-3",),
        follows=("open-area",),
        rounded_to=0.5,
        slips=(
            Slip(
                "twice-the-angle",
                lambda given, earlier: 2 * given["open_angle"],
                0.25,
                "You doubled the angle, but the area does not grow evenly with it. Work back from "
                "the doubled area.",
            ),
            Slip(
                "twice-the-opening",
                lambda given, earlier: 2 * given["open_angle"] - given["closed_angle"],
                0.25,
                "You doubled the turn from the closed angle, but the area grows faster than that, "
                "so a smaller turn is enough.",
            ),
            Slip(
                "same-area",
                lambda given, earlier: _angle(given, earlier["open-area"]),
                0.25,
                "That is the angle from which you started, because the area was not doubled first.",
            ),
            Slip(
                "radians-called-degrees",
                lambda given, earlier: radians(_angle(given, 2 * earlier["open-area"])),
                0.5,
                "The computer's acos gives radians, and you called that number degrees.",
            ),
        ),
        hints=(
            "The open share is twice the area over the area of the bore, and the covered share "
            "is one minus that.",
            "The cosine of the angle is cos(closed) times the covered share. Use acos to get the "
            "angle, which comes out in radians.",
        ),
    ),
)
