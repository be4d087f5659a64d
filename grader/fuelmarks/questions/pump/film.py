"""Unit 08, second chain: what the wall film keeps back, and what the shot makes good."""

from fuelmarks.questions.frame.exercise import Exercise, Slip, Values

__all__ = ["EXERCISES"]

ROUGH = "Nobody knows a wall film to better than a few parts in a hundred."


def _kept(given: Values, growth: float) -> float:
    """Return the film that belongs to so much fuel flow [kg]."""
    return given["wetting_share"] * given["film_time"] * growth


EXERCISES = (
    Exercise(
        id="film-deficit",
        ask="Of the fuel that leaves the carburettor, a share of **{wetting_share}** lands on the "
        "wall of the manifold and stays there for **{film_time}** on average, so the film weighs "
        "share times time times fuel flow. When the driver opens the throttle, the fuel flow "
        "grows from **{fuel_before}** to **{fuel_after}**. How much fuel does the wall keep back "
        "until the film has grown?",
        unit="g",
        reference=lambda given, earlier: _kept(given, given["fuel_after"] - given["fuel_before"]),
        tolerance=0.03,
        why=ROUGH,
        low=0.1,
        high=3.0,
        points=2,
        outcomes=("PMP-3",),
        slips=(
            Slip(
                "whole-flow",
                lambda given, earlier: _kept(given, given["fuel_after"]),
                0.5,
                "That is the whole film after the tip-in. Part of it was there before, and the "
                "question is by how much the film grows.",
            ),
            Slip(
                "share-forgotten",
                lambda given, earlier: (
                    given["film_time"] * (given["fuel_after"] - given["fuel_before"])
                ),
                0.5,
                "You let all the fuel land on the wall, but only the given share does; the rest "
                "flies straight to the cylinders.",
            ),
            Slip(
                "the-dry-share",
                lambda given, earlier: (
                    (1 - given["wetting_share"])
                    * given["film_time"]
                    * (given["fuel_after"] - given["fuel_before"])
                ),
                0.5,
                "You took the share that flies past the wall. It is the other share that stays on "
                "the wall.",
            ),
        ),
        hints=(
            "Work out the film after the tip-in, then subtract the film that was there before.",
        ),
    ),
    Exercise(
        id="shot-cover",
        ask="Now compare your pump's shot, whose fuel has {shot_density}, with the fuel that the "
        "wall keeps back. What share of that fuel does the shot weigh? More than a hundred "
        "percent is possible.",
        unit="percent",
        reference=lambda given, earlier: (
            given["shot_density"] * earlier["shot-volume"] / earlier["film-deficit"]
        ),
        tolerance=0.03,
        why=ROUGH,
        low=30.0,
        high=300.0,
        points=2,
        outcomes=("PMP-3", "PMP-4"),
        follows=("shot-volume", "film-deficit"),
        slips=(
            Slip(
                "water-for-fuel",
                lambda given, earlier: 1000.0 * earlier["shot-volume"] / earlier["film-deficit"],
                0.5,
                "You took a gram for each millilitre, which is right for water. Petrol is "
                "lighter, so use its density.",
            ),
            Slip(
                "upside-down",
                lambda given, earlier: (
                    earlier["film-deficit"] / (given["shot_density"] * earlier["shot-volume"])
                ),
                0.5,
                "Your ratio is upside down: the shot stands above the line, and the demand of the "
                "wall below it.",
            ),
        ),
        hints=(
            "First find the mass of the shot, which is its volume times its density.",
            "Then divide the mass of the shot by the mass that the wall keeps back.",
        ),
    ),
)
