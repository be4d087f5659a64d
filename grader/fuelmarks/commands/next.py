"""``fuelmarks next``: say what to do next, from what was missed so far."""

import argparse

from fuelmarks.commands.arguments import study_folder as options
from fuelmarks.study.telling import what_next

__all__ = ["options", "run"]


def run(asked: argparse.Namespace) -> int:
    """Say what to do next."""
    print(repr(what_next(asked.into)))
    return 0
