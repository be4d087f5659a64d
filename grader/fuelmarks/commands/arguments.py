"""Arguments that several commands take."""

import argparse
from pathlib import Path

__all__ = ["nothing", "study_folder", "unit"]


def nothing(parser: argparse.ArgumentParser) -> None:
    """Ask for nothing more than the course."""


def unit(parser: argparse.ArgumentParser) -> None:
    """Ask for one unit."""
    parser.add_argument("unit", metavar="UNIT", help="such as 02-float-bowl")


def study_folder(parser: argparse.ArgumentParser) -> None:
    """Ask where somebody who learns alone keeps the course."""
    parser.add_argument(
        "--into", type=Path, default=Path("my-course"), metavar="DIR", help="yours (my-course)"
    )
