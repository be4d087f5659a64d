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

MAP: Mapping[str, str] = MappingProxyType(
    {
        "00-shop-arithmetic": "sums",
        "01-air-path": "air",
        "02-float-bowl": "bowl",
        "03-bowl-vents": "vents",
        "04-low-speed": "idle",
        "05-off-idle": "slot",
        "06-high-speed": "main",
        "07-power": "power",
        "08-pump": "pump",
        "09-choke": "choke",
        "10-exhaust": "exhaust",
        "11-setting-up": "setting",
        "12-diagnosis": "faults",
    }
)
"""Where a unit lies on the map, about as its circuit lies in the carburettor."""
STATES = ("not begun", "begun", "done")


class Place(NamedTuple):
    """One unit on the map."""

    unit: str
    title: str
    area: str
    """Its place on the map; empty for a unit of somebody's own, which stands below."""
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
    progress = read_progress(folder / FILE, today())
    return (
        templates()
        .get_template("study/home.html.j2")
        .render(
            places=places(sets_of(folder), progress),
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
        area=MAP.get(unit.unit, ""),
        state=state,
        done=done,
        asked=len(attempts),
        said=last.said if last else "",
    )


def _next(advice: Advice) -> str:
    """Return the unit to go on with; empty if nothing is left."""
    return advice.suggestions[0].unit if advice.suggestions else ""
