"""A unit of three exercises and a folder to build it in, for the tests of building and marking."""

import shutil
import sys
from math import pi
from pathlib import Path

from fuelmarks.course.course import Course
from fuelmarks.questions import Exercise, ExerciseSet, Given, Prediction, Slip

from tests.places import TOP

UNIT = "90-small-unit"
HERE = TOP

EXERCISES = ExerciseSet(
    unit=UNIT,
    title="A small unit",
    givens=(
        Given("supply_pressure", "fuel pressure", "psi", low=4, high=7, step=0.1),
        Given("seat_bore", "bore of the seat", "mm", choices=(2.0, 2.2, 2.4)),
        Given("arm_ratio", "float arm over needle arm", "1", low=3, high=6, step=0.5),
    ),
    exercises=(
        Exercise(
            id="seat-area",
            ask="The seat has a bore of {seat_bore}. What is its area?",
            unit="mm**2",
            reference=lambda given, _: pi * given["seat_bore"] ** 2 / 4,
            tolerance=0.01,
            why="three figures",
            low=1,
            high=20,
            points=2,
            outcomes=("A1",),
            slips=(
                Slip(
                    "radius",
                    lambda given, _: pi * given["seat_bore"] ** 2,
                    0.25,
                    "The bore is a diameter; halve it first.",
                ),
            ),
        ),
        Exercise(
            id="needle-force",
            ask="With {supply_pressure} behind it, how hard does the fuel push on the needle?",
            unit="N",
            reference=lambda given, so_far: given["supply_pressure"] * so_far["seat-area"],
            tolerance=0.02,
            why="three figures",
            low=0.01,
            high=20,
            points=4,
            outcomes=("A1", "A2"),
            follows=("seat-area",),
        ),
        Exercise(
            id="float-lift",
            ask="The arms stand as {arm_ratio}. What lift does the float need?",
            unit="N",
            reference=lambda given, so_far: so_far["needle-force"] / given["arm_ratio"],
            tolerance=0.02,
            why="three figures",
            low=0.001,
            high=20,
            points=3,
            outcomes=("A2",),
            follows=("needle-force",),
        ),
    ),
    predictions=(Prediction("level", "A", "It takes more float under the fuel."),),
)

TEXT = """---
jupytext:
  text_representation: {extension: .md, format_name: myst}
---

# A small unit

Some words.

:::{begin}
:::

:::{predict} level
More pressure. What does the level do?

- A: it rises
- B: it falls
:::

```{code-cell} ipython3
shown = 6 * 7
shown
```

:::{exercise} seat-area
:::

:::{exercise} needle-force
:::

Words in between.

:::{exercise} float-lift
:::

:::{written} say-it points=4
Say it in your own words.

### Rubric
- 1 point: says it.
:::

The end.
"""


def shelve() -> None:
    """Put the small unit on the shelf beside the real ones."""
    sys.modules["fuelmarks.questions.small_unit.unit"] = sys.modules[__name__]


def new_course(folder: Path, text: str = TEXT, trainees: int = 3) -> Course:
    """Return a course with the small unit and a class of `trainees`, not yet built."""
    shelve()
    unit = folder / "units" / UNIT
    unit.mkdir(parents=True)
    (unit / "unit.md").write_text(text)
    (folder / "term.toml").write_text('key = "a key for tests"\n')
    shutil.copy(HERE / "course" / "nbgrader_config.py", folder)
    lines = [f"t{number:03},First{number},Last{number}," for number in range(1, trainees + 1)]
    (folder / "class.csv").write_text("\n".join(["id,first name,last name,email", *lines]) + "\n")
    return Course.at(folder)
