"""``fuelmarks hand-mark``: mark a written question across the class on one page."""

import argparse

from fuelmarks.commands import arguments
from fuelmarks.course.course import Course, CourseError
from fuelmarks.hand_marking.server import HandMarking

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the unit, and perhaps the question and the port."""
    arguments.unit(parser)
    parser.add_argument("question", metavar="QUESTION", nargs="?", default="", help="its name")
    parser.add_argument(
        "--port", type=arguments.port, default=0, metavar="N", help="where to serve it (a free one)"
    )


def run(asked: argparse.Namespace) -> int:
    """Serve the page until it is stopped."""
    with HandMarking(Course.at(asked.course), asked.unit, asked.port) as server:
        known = server.questions
        if asked.question and asked.question not in known:
            names = ", ".join(known) or "none"
            raise CourseError(f"question must be one of {names}, got {asked.question!r}")
        first = asked.question or (known[0] if len(known) == 1 else "")
        print(
            f"Open {server.address(first)}",
            "Ctrl+C ends it; what was saved is kept.",
            sep="\n",
            flush=True,
        )
        server.serve_forever()
    return 0
