"""A unit as one who learns alone opens it: behind each written answer its rubric, folded away.

A class never gets these notebooks: what is handed out is made from the release, which holds no
rubric.
"""

from fuelmarks.course.course import Course
from fuelmarks.course.notebook import NotebookNode, grade_id, new_cell, read
from fuelmarks.paper.key import rubrics

__all__ = ["study_notebook"]

FOLDED = """<details>
<summary>Learning alone? Write your answer first, then open this and mark it yourself.</summary>

{rubric}

Give yourself a point only for what stands in your answer, not for what you meant.
</details>"""


def study_notebook(course: Course, unit: str) -> NotebookNode:
    """Return the release of `unit` with a rubric behind each answer that is marked by hand."""
    made = read(course.notebook("release", unit))
    folded = {f"{unit[:2]}-{name}": rubric for name, rubric in rubrics(course, unit)}
    cells = []
    for cell in made.cells:
        cells.append(cell)
        if rubric := folded.get(name := grade_id(cell)):
            text = FOLDED.format(rubric=rubric)
            cells.append(new_cell("markdown", text, name=f"{name}-rubric"))
    made.cells = cells
    return made
