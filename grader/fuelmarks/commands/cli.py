"""The command ``fuelmarks``: build, hand out, print, collect, mark and report a unit of the course.

Ends with 0 when all is well, 1 when something was passed over, 2 when nothing could be begun.
"""

import argparse
import importlib
import sys
from collections.abc import Sequence
from pathlib import Path

from fuelcircuits.errors import CircuitError

from fuelmarks.runner.sandbox import SandboxError

__all__ = ["COMMANDS", "main"]

NOT_BEGUN, INTERRUPTED = 2, 130
COMMANDS = {
    "build": ("build", "Make the notebooks of units from their text."),
    "check": ("check", "Prove a unit's questions: samples, kinds, rivals, slips, guards."),
    "new-unit": ("new_unit", "Write the skeleton of a unit of your own: text and questions."),
    "hand-out": ("hand_out", "Make a notebook for every trainee, each with numbers of his own."),
    "collect": ("collect", "Take in returned notebooks, whatever their names; keep all attempts."),
    "mark": ("mark", "Run and mark what was handed in, and enter it in the gradebook."),
    "hand-mark": ("hand_mark", "Mark a written question by hand, the whole class on one page."),
    "paper-marks": ("paper_marks", "Type in marks for work on paper, question by question."),
    "observe": ("observe", "Enter work that was watched at the bench, from a form or a table."),
    "sample": ("sample", "Print a sample of observed work for a second person to look at."),
    "outcomes": ("outcomes", "Write where each outcome is taught, practised, assessed, observed."),
    "report": ("report", "Write a unit's class page, everybody's own page, and the marks as CSV."),
    "grades": ("grades", "Send a unit's marks to the learning platform, from a class server."),
    "term": ("term", "Write the term's book and the record of competence, over all units."),
    "print": ("print_paper", "Print a unit for paper: handout, job sheet, or answer key."),
    "pack": ("pack", "Print the instructor's pack: term plan, outcomes, lesson plans, slides."),
    "atlas": ("atlas", "Write every part of a carburettor on one page, and print it."),
    "glossary": ("glossary", "Write every new word on one page, with links to the units."),
    "study": ("study", "Learn alone: lay out the course, keep your progress, open its map."),
    "next": ("next", "Say what to do next, from what you have missed so far."),
    "gradebook": ("gradebook", "Copy the gradebook: to a database server, or as a safe copy."),
    "server": ("server", "Set up, start, stop, look at or remove the class server."),
    "demo": ("demo", "Do all of it with an invented class, in a folder of its own."),
}
"""Every command: the module of this folder with its `options` and its `run`, and what it is for."""


def main(words: Sequence[str] | None = None) -> int:
    """Run one command and return the exit code."""
    words = sys.argv[1:] if words is None else words
    try:
        asked = _parser(words).parse_args(words)
        done: int = asked.run(asked)
    except KeyboardInterrupt:
        print("Stopped. What was done is kept; the same command goes on from there.")
        return INTERRUPTED
    except (CircuitError, SandboxError, OSError) as error:
        print(f"fuelmarks: {error}", file=sys.stderr)
        return NOT_BEGUN
    return done


def _parser(words: Sequence[str]) -> argparse.ArgumentParser:
    """Return the parser, having loaded only the module of the command that `words` begin with."""
    parser = argparse.ArgumentParser(prog="fuelmarks", description=(__doc__ or "").split("\n")[0])
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    for name, (stem, purpose) in COMMANDS.items():
        command = commands.add_parser(name, help=purpose, description=purpose)
        command.add_argument(
            "--course", type=Path, default=Path(), metavar="DIR", help="the course (here)"
        )
        if name in words[:1]:
            module = importlib.import_module(f"fuelmarks.commands.{stem}")
            module.options(command)
            command.set_defaults(run=module.run)
    return parser


if __name__ == "__main__":
    sys.exit(main())
