"""The learner's home: the course as a map of circuits, done, begun and next."""

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from fuelmarks.authoring.own_car import NAME as OWN_CAR
from fuelmarks.course.templates import templates
from fuelmarks.questions import ExerciseSet
from fuelmarks.study.advice import Advice
from fuelmarks.study.predictions import predictions
from fuelmarks.study.progress import FILE, Progress, read_progress
from fuelmarks.study.telling import sets_of, today, what_next

__all__ = ["Place", "home_page", "places"]

SPOTS: Mapping[str, tuple[int, int]] = MappingProxyType(
    {
        "01-air-path": (480, 160),
        "02-float-bowl": (215, 290),
        "03-bowl-vents": (203, 76),
        "04-low-speed": (356, 414),
        "05-off-idle": (378, 366),
        "06-high-speed": (392, 230),
        "07-power": (332, 262),
        "08-pump": (66, 156),
        "09-choke": (480, 30),
        "10-exhaust": (240, 532),
        "11-setting-up": (606, 366),
    }
)
"""Where a circuit's number stands in the section, in its own units: right and down from the top
left."""
STATES = ("not begun", "begun", "done")


class Place(NamedTuple):
    """One unit on the map."""

    unit: str
    title: str
    spot: tuple[int, int] | None
    """Its place in the section; none where it is no circuit, and stands in the list alone."""
    state: str
    done: int
    asked: int
    said: str
    """The last comment that was made on an answer; empty if there is none."""


def home_page(folder: Path, base_url: str = "/") -> str:
    """Return the page for the learner whose course lies in `folder`.

    Raises `ProgressError` if no progress is kept there.
    """
    advice = what_next(folder)
    found = places(sets_of(folder), read_progress(folder / FILE, today()))
    return (
        templates()
        .get_template("study/home.html.j2")
        .render(
            places=found,
            titles={one.unit: one.title for one in found},
            advice=advice,
            next=_next(advice),
            predictions=predictions(folder),
            own_car=OWN_CAR if (folder / OWN_CAR).is_dir() else "",
            lab=f"{base_url}lab/tree/",
        )
    )


def places(sets: list[ExerciseSet], progress: Progress) -> list[Place]:
    """Return every unit as it stands on the map."""
    return [_place(one, progress) for one in sets]


def _place(unit: ExerciseSet, progress: Progress) -> Place:
    attempts = [progress.of(unit.unit, one.id) for one in unit]
    done = sum(1 for one in attempts if one is not None and one.done)
    begun = unit.unit in progress.units
    state = STATES[2] if done == len(attempts) else STATES[1] if begun else STATES[0]
    dated = [one for one in attempts if one is not None and one.said]
    last = max(dated, key=lambda one: one.date, default=None)
    return Place(
        unit=unit.unit,
        title=unit.title,
        spot=SPOTS.get(unit.unit),
        state=state,
        done=done,
        asked=len(attempts),
        said=last.said if last else "",
    )


def _next(advice: Advice) -> str:
    """Return the unit to go on with; empty if nothing is left."""
    return advice.suggestions[0].unit if advice.suggestions else ""
