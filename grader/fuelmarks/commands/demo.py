"""``fuelmarks demo``: do all of it with an invented class, in a folder of its own."""

import argparse
from pathlib import Path

from fuelmarks.course.course import Course
from fuelmarks.demo.run import run_demo

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the folder, and how large the class is."""
    parser.add_argument("--into", type=Path, default=Path("demo"), metavar="DIR", help="(demo)")
    parser.add_argument("--trainees", type=int, default=12, metavar="N", help="how many (12)")


def run(asked: argparse.Namespace) -> int:
    """Do all of it."""
    return run_demo(Course.at(asked.course), asked.into, asked.trainees)
