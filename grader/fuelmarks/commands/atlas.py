"""``fuelmarks atlas``: write every part of a carburettor on one page, and print it."""

import argparse
from pathlib import Path

from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course
from fuelmarks.paper.atlas_page import write_atlas
from fuelmarks.paper.chromium import find_chromium, print_page

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the carburettor."""
    parser.add_argument(
        "--card", metavar="FILE", default="plover", help="a whole spec card, or a rig (plover)"
    )


def run(asked: argparse.Namespace) -> int:
    """Write the page, and the PDF beside it."""
    course = Course.at(asked.course)
    rig = course.root / "rigs" / f"{asked.card}.toml"
    page = write_atlas(course, rig if rig.is_file() else Path(asked.card))
    say_wrote([page])
    pdf = page.with_suffix(".pdf")
    print_page(page, pdf, find_chromium())
    say_wrote([pdf])
    return 0
