"""Arguments that several commands take."""

import argparse
from pathlib import Path

__all__ = ["nothing", "port", "released_unit", "study_folder", "unit"]

HIGHEST = 65_535
"""The last port there is (RFC 6335, section 6)."""


def nothing(parser: argparse.ArgumentParser) -> None:
    """Ask for nothing more than the course."""


def unit(parser: argparse.ArgumentParser) -> None:
    """Ask for one unit."""
    parser.add_argument("unit", metavar="UNIT", help="such as 02-float-bowl")


def released_unit(parser: argparse.ArgumentParser) -> None:
    """Ask for one unit, and whether what is made goes to everybody on the class server."""
    unit(parser)
    parser.add_argument(
        "--release", action="store_true", help="and give each his own on the class server"
    )


def port(text: str) -> int:
    """Return the port that `text` names; raise `ArgumentTypeError` if there is none such."""
    if not text.isdecimal() or not 1 <= int(text) <= HIGHEST:
        raise argparse.ArgumentTypeError(f"port must be from 1 to {HIGHEST}, got {text!r}")
    return int(text)


def study_folder(parser: argparse.ArgumentParser) -> None:
    """Ask where somebody who learns alone keeps the course."""
    parser.add_argument(
        "--into", type=Path, default=Path("my-course"), metavar="DIR", help="yours (my-course)"
    )
