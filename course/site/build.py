"""Build the website: ``python -m course.site.build --into build/site --core build/core``.

Text by Sphinx, benches by `fuelcircuits.benches.live`; any static web server serves it.
"""

import argparse
import shutil
import sys
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import Any

from fuelcircuits.benches.live.desk import Desk
from fuelcircuits.benches.live.engine import engine, write_engine
from fuelcircuits.benches.live.page import DRIVE, Release, block, drive_block, release_block
from fuelcircuits.benches.live.release import cards_in, keep_offline, write_pages
from fuelmarks.course.course import Course
from sphinx.application import Sphinx

from course.site.atlas import ATLAS, Atlases
from course.site.guides import GUIDES, PAPERS, guide, introduction
from course.site.lists import benches_page, glossary_page, home_page, plan_page
from course.site.polish import polish
from course.site.units import own_car_page, unit_page

__all__ = ["main", "write_site"]

HERE = Path(__file__).parent
OPTIONS = {
    "project": "How a two-barrel carburettor meters fuel",
    "extensions": ["myst_parser", "course.site.maths"],
    "myst_enable_extensions": ["colon_fence", "dollarmath"],
    "html_theme": "furo",
    "html_title": "Carburettor course",
    "html_static_path": [str(HERE / "static")],
    "html_css_files": ["site.css"],
    "html_js_files": [("menus.js", {"defer": "defer"})],
    "html_favicon": str(HERE / "static" / "icon.svg"),
    "html_math_renderer": "mathml",
    "html_copy_source": False,
    "html_show_sourcelink": False,
    "html_show_sphinx": False,
    "html_show_copyright": False,
    "html_permalinks": False,
    "html_use_index": False,
    "pygments_style": "xcode",
    "language": "en",
}


def write_site(course: Course, readme: Path, core: Path, into: Path) -> None:
    """Write the whole site into a folder, emptied before."""
    shutil.rmtree(into, ignore_errors=True)
    cards = cards_in(course.root / "rigs")
    release = write_engine(engine(core, cards), into / "live")
    source = into.with_name(f"{into.name}-text")
    shutil.rmtree(source, ignore_errors=True)
    atlases = Atlases(course.root / "rigs")
    for name, text in _pages(course, readme, Desk(cards), tuple(cards), atlases).items():
        path = source / f"{name}.md"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text + "\n", encoding="utf-8")
    _run_sphinx(source, into, release)
    write_pages(cards, into / "benches", release, atlases.beside)
    keep_offline(into, release)


def _pages(
    course: Course, readme: Path, desk: Desk, rigs: tuple[str, ...], atlases: Atlases
) -> dict[str, str]:
    """Return every page as MyST by its name."""

    def bench(stem: str, said: str = "") -> str:
        made = partial(drive_block, said=said) if stem == DRIVE else partial(block, stem)
        shown = made(desk, rigs, page=f"../benches/{stem}.html", heading="h3")
        return shown + atlases.beside(stem)

    return {
        "index": home_page(introduction(readme), course, (*GUIDES, *PAPERS)),
        "benches/index": benches_page(course),
        **{f"atlas/{rig}": atlases.page(rig) for rig in ATLAS},
        "glossary": glossary_page(course),
        "plan": plan_page(course),
        "model": (HERE / "model.md").read_text("utf-8"),
        "own-car/own-car": own_car_page(course),
        **{f"units/{unit}": unit_page(course, unit, bench) for unit in course.units()},
        **{f"run/{name}": guide(readme, name) for name in (*GUIDES, *PAPERS)},
    }


def _run_sphinx(source: Path, into: Path, release: Release) -> None:
    """Let Sphinx write the pages; a warning is an error."""
    app = Sphinx(
        source,
        None,
        into,
        source.with_name(f"{source.name}-trees"),
        "html",
        confoverrides=OPTIONS,
        status=None,
        warningiserror=True,
        exception_on_warning=True,
    )

    def close(_app: Any, page: str, _template: str, context: dict[str, Any], _tree: Any) -> None:
        root = "../" * page.count("/") or "./"
        end = release_block(release, root=root, home=f"{root}live/")
        style = f'<link rel="stylesheet" href="{root}live/live.css?{release.name}">'
        note = '<p id="fc-offline"></p>'
        context["body"] = "".join([style, context.get("body", ""), note, end])

    app.connect("html-page-context", close)
    app.build()
    polish(into.rglob("*.html"))
    for left in (".buildinfo", "objects.inv", "genindex.html"):
        (into / left).unlink(missing_ok=True)


def main(arguments: Sequence[str] | None = None) -> int:
    """Write the site, and tell how large it is."""
    asked = argparse.ArgumentParser(prog="course.site.build", description=__doc__)
    asked.add_argument("--into", type=Path, required=True, help="folder the site goes to")
    asked.add_argument("--core", type=Path, required=True, help="folder where npm has put Pyodide")
    asked.add_argument("--course", type=Path, default=Path("course"))
    asked.add_argument("--readme", type=Path, default=Path("README.md"))
    chosen = asked.parse_args(arguments)
    write_site(Course.at(chosen.course), chosen.readme, chosen.core, chosen.into)
    size = sum(path.stat().st_size for path in chosen.into.rglob("*") if path.is_file())
    sys.stdout.write(f"{chosen.into}: {size / 1e6:.1f} MB\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
