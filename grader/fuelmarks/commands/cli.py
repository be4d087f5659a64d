"""The command ``fuelmarks``: build, hand out, print, collect, mark and report a unit of the course.

Ends with 0 when all is well, 1 when something was passed over, 2 when nothing could be begun.
"""

import argparse
import importlib
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from fuelcircuits.errors import CircuitError

from fuelmarks.runner.sandbox import SandboxError

__all__ = ["main"]

NOT_BEGUN, INTERRUPTED = 2, 130
MODULES = {
    "mark": "fuelmarks.commands.mark",
    "study": "fuelmarks.commands.study",
    "next": "fuelmarks.commands.study",
}
"""Where a command is found, if not among the others."""


def main(words: Sequence[str] | None = None) -> int:
    """Run one command and return the exit code."""
    asked = _parser().parse_args(words)
    _start_light()
    try:
        commands = importlib.import_module(MODULES.get(asked.command, "fuelmarks.commands.others"))
        done: int = getattr(commands, asked.command.replace("-", "_"))(asked)
    except KeyboardInterrupt:
        print("Stopped. What was done is kept; the same command goes on from there.")
        return INTERRUPTED
    except (CircuitError, SandboxError, OSError) as error:
        print(f"fuelmarks: {error}", file=sys.stderr)
        return NOT_BEGUN
    return done


def _start_light() -> None:
    """Have notebooks checked without a grammar of web addresses, which takes a second to load.

    jsonschema does without where it is missing, and no notebook's form asks for it.
    """
    sys.modules.setdefault("rfc3987_syntax", None)  # type: ignore[arg-type]


def _parser() -> argparse.ArgumentParser:
    """Return the parser of all commands."""
    parser = argparse.ArgumentParser(prog="fuelmarks", description=(__doc__ or "").split("\n")[0])
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    for name, add in COMMANDS.items():
        command = commands.add_parser(name, help=add.__doc__, description=add.__doc__)
        command.add_argument(
            "--course", type=Path, default=Path(), metavar="DIR", help="the course (here)"
        )
        command.set_defaults(command=name)
        add(command)
    return parser


def _unit(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("unit", metavar="UNIT", help="such as 02-float-bowl")


def _build(parser: argparse.ArgumentParser) -> None:
    """Make the notebooks of units from their text."""
    parser.add_argument("units", nargs="*", metavar="UNIT", help="the units (all)")


def _hand_out(parser: argparse.ArgumentParser) -> None:
    """Make a notebook for every trainee, each with numbers of his own."""
    _unit(parser)


def _collect(parser: argparse.ArgumentParser) -> None:
    """Take in returned notebooks: one file or folder a trainee, named by id."""
    _unit(parser)
    parser.add_argument("returned", type=Path, metavar="FOLDER", help="where they lie")


def _mark(parser: argparse.ArgumentParser) -> None:
    """Run and mark what was handed in, and enter it in the gradebook."""
    _unit(parser)
    parser.add_argument(
        "--only", action="append", default=[], metavar="ID", help="this trainee only; repeatable"
    )
    parser.add_argument("--again", action="store_true", help="also what is marked already")
    parser.add_argument(
        "--trust-class",
        action="store_true",
        help="run notebooks without the sandbox, with all your own rights",
    )


def _report(parser: argparse.ArgumentParser) -> None:
    """Write the class page, the trainees' pages, the record of competence and the CSV."""
    _unit(parser)


def _print(parser: argparse.ArgumentParser) -> None:
    """Print a unit for a class without computers: handout, job sheet, or answer key."""
    parser.set_defaults(command="print-paper")
    _unit(parser)
    parser.add_argument(
        "--sheet", choices=("handout", "job", "key"), default="handout", help="(handout)"
    )
    parser.add_argument(
        "--trainee", metavar="ID", help="this trainee only, or specimen (the class)"
    )


def _pack(parser: argparse.ArgumentParser) -> None:
    """Print the instructor's pack: term plan, outcomes map, lesson plans, slides."""


def _glossary(parser: argparse.ArgumentParser) -> None:
    """Write every new word of the course on one page, with links to the units."""


def _study(parser: argparse.ArgumentParser) -> None:
    """Learn alone: lay out the course, keep your progress, open it in JupyterLab."""
    _study_folder(parser)
    parser.add_argument("--port", type=int, default=8888, metavar="N", help="(8888)")
    parser.add_argument(
        "--no-browser", action="store_true", help="say the address, open no browser"
    )
    parser.add_argument("--no-lab", action="store_true", help="lay out only, start no JupyterLab")


def _next(parser: argparse.ArgumentParser) -> None:
    """Say what to do next, from what you have missed so far."""
    _study_folder(parser)


def _study_folder(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--into", type=Path, default=Path("my-course"), metavar="DIR", help="yours (my-course)"
    )


def _demo(parser: argparse.ArgumentParser) -> None:
    """Do all of it with an invented class, in a folder of its own."""
    parser.add_argument("--into", type=Path, default=Path("demo"), metavar="DIR", help="(demo)")
    parser.add_argument("--trainees", type=int, default=12, metavar="N", help="how many (12)")


COMMANDS: dict[str, Callable[[argparse.ArgumentParser], None]] = {
    "build": _build,
    "hand-out": _hand_out,
    "collect": _collect,
    "mark": _mark,
    "report": _report,
    "print": _print,
    "pack": _pack,
    "glossary": _glossary,
    "study": _study,
    "next": _next,
    "demo": _demo,
}


if __name__ == "__main__":
    sys.exit(main())
