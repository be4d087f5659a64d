"""``fuelmarks sample``: print a sample of observed work for moderation."""

import argparse

from fuelmarks.book.moderation import draw_sample, sample_page
from fuelmarks.book.writing import put
from fuelmarks.classroom.observed import read_observed
from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course
from fuelmarks.course.outcomes import read_outcomes

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask how many pieces of work, and for the seed of the draw."""
    parser.add_argument("--of", type=int, default=6, metavar="NUMBER", help="how many pieces (6)")
    parser.add_argument(
        "--seed", required=True, metavar="WORDS", help="random seed, printed on the sample"
    )


def run(asked: argparse.Namespace) -> int:
    """Write the page to print."""
    course = Course.at(asked.course)
    sample = draw_sample(read_observed(course), asked.of, asked.seed)
    text = sample_page(sample, course.trainees(), read_outcomes(course))
    say_wrote([put(course.root / "reports" / "sample.html", text)])
    return 0
