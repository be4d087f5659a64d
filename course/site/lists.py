"""Pages that are lists: benches, words, the plan of a term with its outcomes."""

from collections.abc import Iterable, Mapping

from fuelcircuits.benches import BENCHES, bench_class, stems_in
from fuelcircuits.benches.drive.bench import DriveBench
from fuelmarks.authoring.glossary import terms
from fuelmarks.course.course import Course
from fuelmarks.paper.lesson_plan import lessons
from fuelmarks.paper.outcomes_map import outcomes_map

from course.site.atlas import ATLAS
from course.site.blocks import table

__all__ = ["benches_page", "glossary_page", "home_page", "plan_page"]


def home_page(introduction: str, course: Course, guides: Iterable[str]) -> str:
    """Return the first page, with the tables of contents of all others."""
    parts = {
        "Units": [f"units/{unit}" for unit in course.units()],
        "Beside the units": [
            "benches/index",
            *(f"atlas/{rig}" for rig in ATLAS),
            *("own-car/own-car", "model", "glossary", "plan"),
        ],
        "How to run it": [f"run/{name}" for name in guides],
    }
    trees = [
        f"```{{toctree}}\n:caption: {caption}\n:maxdepth: 1\n\n{chr(10).join(pages)}\n```"
        for caption, pages in parts.items()
    ]
    return "\n\n".join([introduction, *trees])


def benches_page(course: Course) -> str:
    """Return the list of the benches, each with the units that use it."""
    used = _units_of(course)
    lines = [
        f'- <a href="{stem}.html">{bench_class(stem).title}</a>{used.get(stem, "")}  \n  '
        f"{(bench_class(stem).__doc__ or '').partition(chr(10))[0]}"
        for stem in BENCHES
    ]
    driven = (
        f'- <a href="drive.html">{DriveBench.title}</a>  \n  The whole carburettor on one screen: '
        "pedal, gear and hill, and what every circuit does about them. It can be seen, heard, "
        "slowed down and kept."
    )
    own = (
        '- <a href="your-own-car.html">Your own car</a>  \n  The card of the carburettor in front '
        "of you: fill in what you have measured and read, and see which entries are doubtful, what "
        "is likely wrong, and which step to take next. Nothing is sent anywhere."
    )
    said = (
        "Every bench runs in this page's own Python: move a control, and see what follows. A spec "
        "card of your own can be dropped onto it. After one visit no network is needed, and "
        "nothing that you set leaves your device. How far to believe what it shows: "
        "[what this model knows](../model.md)."
    )
    rigs = " and ".join(f"[{rig}](../atlas/{rig}.md)" for rig in ATLAS)
    parts = f"What the parts in the drawings are, the atlas tells: {rigs}."
    return "\n\n".join(["# Benches", said, "\n".join([own, driven, *lines]), parts])


def glossary_page(course: Course) -> str:
    """Return every new word with its unit."""
    units = set(course.units())
    entries = [
        f"{term.name}\n  {term.told} "
        + (f"([unit {term.unit[:2]}](units/{term.unit}.md))" if term.unit in units else "")
        for term in terms(course)
    ]
    return "# Words\n\n`````{glossary}\n" + "\n\n".join(entries) + "\n`````"


def plan_page(course: Course) -> str:
    """Return the plan of a term, and which outcome is taught where."""
    planned = [
        (
            f"[{plan.unit}](units/{plan.unit}.md)",
            *(f"{each}" for each in (plan.minutes, plan.home, plan.shop)),
            plan.demonstration,
        )
        for plan in lessons(course)
    ]
    taught = [(each.code, each.title, each.taught) for each in outcomes_map(course)]
    return "\n\n".join(
        [
            "# Term plan",
            "Minutes are counted from each unit's words, tasks and questions at a pace that is a "
            "proposal, as the demonstrations are: change both to suit your class.",
            table(
                ("unit", "in class", "at home", "in the shop", "what the class sees first"), planned
            ),
            "## Outcomes",
            table(("code", "a trainee afterwards", "unit"), taught),
        ]
    )


def _units_of(course: Course) -> Mapping[str, str]:
    """Return which unit uses a bench, in brackets, by the stem of the bench."""
    return {
        stem: f" ([unit {unit[:2]}](../units/{unit}.md))"
        for unit in course.units()
        for stem in stems_in(course.text(unit).read_text("utf-8"))
    }
