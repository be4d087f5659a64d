"""The skeleton of a unit of one's own: it builds as it is, and says where to write what."""

from pathlib import Path

from fuelmarks.course.course import UNIT, Course, CourseError
from fuelmarks.course.unit_questions import BESIDE
from fuelmarks.course.whole_file import put_new
from fuelmarks.questions.frame.shelf import find

__all__ = ["new_unit"]

TEXT = """\
---
jupytext:
  text_representation: {{extension: .md, format_name: myst}}
kernelspec: {{display_name: Python 3, language: python, name: python3}}
---

# {title}

**A job comes in.** Say what comes into the shop, and what the customer complains of.

:::{{begin}}
:::

## What is in there

Say what it is made of, and what each part is for.

:::{{predict}} first-guess
Ask what will happen before anybody has looked.

- A: it rises
- B: it falls
:::

## Your own numbers

:::{{exercise}} seat-area
:::

:::{{exercise}} needle-push
:::

:::{{written}} say-why
:::
"""

QUESTIONS = """\
title = "{title}"

# The key to what is asked before anybody has looked; it is not in the notebook.
[[prediction]]
id    = "first-guess"
right = "A"
why   = "Say what moves what."

# What a trainee is given: lowest to highest, step, unit | what it is, as it reads in a sentence.
[given]
seat_bore     = "2.2 to 2.8 step 0.1 mm | the bore of the needle seat"
pump_pressure = "3.8 to 6.2 step 0.1 psi | the pump's pressure on the gauge"

# A question: one step a line, with its words. An earlier answer is named by its id, with _ for -.
[[question]]
id      = "seat-area"
ask     = "The seat has a bore of **{{seat_bore}}**. What is its area?"
formula = "area = circle(seat_bore)  # the area of the seat"
unit    = "mm^2"
expect  = "2 to 10"
points  = 1

[[question]]
id      = "needle-push"
ask     = "The pump holds **{{pump_pressure}}** on its gauge. How hard does it push on the needle?"
formula = "push = pump_pressure * seat_area  # the push on the needle"
unit    = "N"
expect  = "0.04 to 1"
points  = 2
hints   = ["A pressure is a force over an area."]

  [[question.slip]]     # only where your own words are better than those that are found
  name    = "absolute-pressure"
  instead = "push = (pump_pressure + standard_air_pressure) * seat_area"
  comment = "The air presses on the needle from the other side too. What does a gauge show?"

# A question in words, marked by hand with its rubric.
[[question]]
id      = "say-why"
ask     = "Why does a worn seat raise the level? Two sentences."
rubric  = \"\"\"
- 1 point: the seat leaks, so more fuel comes in than goes out.
- 1 point: the level rises until the float presses harder.
\"\"\"
points  = 2
"""


def new_unit(course: Course, unit: str) -> tuple[Path, Path]:
    """Write text and questions of a new unit and return their paths.

    Raises `CourseError` if the name cannot be that of a unit, or is taken.
    """
    if not UNIT.fullmatch(unit):
        rule = "unit must be two digits and a name in small letters, such as 20-our-float"
        raise CourseError(f"{rule}, got {unit!r}")
    if taken := [one for one in course.units() if one[:2] == unit[:2]]:
        raise CourseError(f"unit must have a number of its own, got {unit} beside {taken[0]}")
    if find(unit):
        raise CourseError(f"unit must have a name of its own, got {unit}, which comes with this")
    folder = course.root / "units" / unit
    folder.mkdir(parents=True)
    title = unit[3:].replace("-", " ").capitalize()
    made = folder / "unit.md", folder / BESIDE
    for path, text in zip(made, (TEXT, QUESTIONS), strict=True):
        put_new(path, text.format(title=title).encode())
    return made
