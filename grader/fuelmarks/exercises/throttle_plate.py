"""Unit 01, the throttle: how much of the bore a plate leaves open."""

from math import acos, cos, pi, radians, sin

from fuelmarks.exercises.exercise import Exercise, Slip, Values

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
        "**{closed_angle}** from square across. Leave its shaft out. At **{open_angle}** the "
        "plate's shadow covers cos(open) over cos(closed) of the bore. What area is open?",
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
                "That is what the plate covers. Asked is what is left.",
            ),
            Slip(
                "closed-angle-forgotten",
                lambda given, earlier: _bore(given) * (1 - cos(given["open_angle"])),
                0.5,
                "You took the plate as shut when it is square across. It shuts at its closed "
                "angle: divide by the cosine of that.",
            ),
            Slip(
                "sine-for-cosine",
                lambda given, earlier: _bore(given) * sin(given["open_angle"]),
                0.25,
                "You took the sine. The shadow narrows as the cosine does.",
            ),
            Slip(
                "diameter-for-radius",
                lambda given, earlier: 4 * _open(given),
                0.5,
                "Four times too much: radius, not diameter.",
            ),
        ),
        hints=("from math import cos: cos(open_angle) knows that the angle is in degrees.",),
    ),
    Exercise(
        id="angle-for-twice",
        ask="The engine needs twice that open area. To which angle, from square across, must the "
        "plate turn?",
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
                "Area does not grow evenly with the angle. Work back from the area.",
            ),
            Slip(
                "twice-the-opening",
                lambda given, earlier: 2 * given["open_angle"] - given["closed_angle"],
                0.25,
                "You doubled the turn from the closed angle. Area grows faster than that.",
            ),
            Slip(
                "same-area",
                lambda given, earlier: _angle(given, earlier["open-area"]),
                0.25,
                "That is the angle you started from: double the area first.",
            ),
            Slip(
                "radians-called-degrees",
                lambda given, earlier: radians(_angle(given, 2 * earlier["open-area"])),
                0.5,
                "The computer's acos gives radians. You called the number degrees.",
            ),
        ),
        hints=(
            "Share open: twice the area over the bore. Share covered: one less that.",
            "cos(angle) = cos(closed) times share covered; then acos, which gives radians.",
        ),
    ),
)
