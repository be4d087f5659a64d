"""``fuelmarks server``: set up, start, stop, look at and remove the class server."""

import argparse
from dataclasses import replace
from pathlib import Path
from typing import Any

from fuelmarks.server.class_server import ClassServer, ServerError, read_server

__all__ = ["options", "run"]

ROOT = Path("/opt/fuelcircuits")
SETTINGS = ("address", "port", "certificate", "certificate_key", "login")


def options(parser: argparse.ArgumentParser) -> None:
    """Ask what to do, where the server lies, and at setup what it is to be."""
    parser.add_argument("action", choices=sorted(ACTIONS), help="what to do")
    parser.add_argument("--root", type=Path, default=ROOT, metavar="DIR", help=f"({ROOT})")
    parser.add_argument("--class", dest="class_list", type=Path, metavar="FILE", help="class.csv")
    parser.add_argument(
        *("--instructor", "-i"), action="append", default=[], metavar="NAME", help="(teacher)"
    )
    parser.add_argument("--address", metavar="IP", help="where to listen (127.0.0.1)")
    parser.add_argument("--port", type=int, metavar="N", help="the first of four (8000)")
    parser.add_argument("--certificate", metavar="FILE", help="full chain, PEM")
    parser.add_argument("--certificate-key", metavar="FILE", help="its key, PEM")
    parser.add_argument("--behind", action="store_true", default=None, help="a proxy does TLS")
    parser.add_argument("--login", choices=("pam", "lti"), help="(pam)")
    parser.add_argument(
        "--accounts", action="store_true", help="remove: the accounts and homes too"
    )
    parser.add_argument("--work", action="store_true", help="remove: what was handed in too")
    parser.add_argument(
        "--into", type=Path, default=Path("demo-server"), help="demo: (demo-server)"
    )
    parser.add_argument("--quick", action="store_true", help="demo: compile what is used alone")
    parser.add_argument("--trainees", type=int, default=3, metavar="N", help="demo: (3)")


def run(asked: argparse.Namespace) -> int:
    """Do it."""
    done: int = ACTIONS[asked.action](asked)
    return done


def _setup(asked: argparse.Namespace) -> int:
    from fuelmarks.server.setup import set_up  # noqa: PLC0415

    checkout = asked.course.resolve().parent
    if not (checkout / "widgets" / "pyproject.toml").is_file():
        rule = "setup must be run in a copy of the repository, with --course course"
        raise ServerError(f"{rule}, got {checkout}")
    set_up(_asked_for(asked), checkout, asked.class_list, print)
    return 0


def _asked_for(asked: argparse.Namespace) -> ClassServer:
    """Return the server that is there or a new one, with what the options say."""
    try:
        server = read_server(asked.root)
    except ServerError:
        if (asked.root / "server.toml").exists():
            raise
        server = ClassServer(asked.root)
    told: dict[str, Any] = {
        name: value for name in (*SETTINGS, "behind") if (value := getattr(asked, name)) is not None
    }
    if asked.instructor:
        told["instructors"] = tuple(asked.instructor)
    return replace(server, **told)


def _start(asked: argparse.Namespace) -> int:
    from fuelmarks.server.running import start  # noqa: PLC0415

    server = read_server(asked.root)
    start(server)
    print(f"The class server runs: {server.front}")
    return 0


def _stop(asked: argparse.Namespace) -> int:
    from fuelmarks.server.running import stop  # noqa: PLC0415

    stop(read_server(asked.root))
    print("The class server is stopped; what was written and handed in is kept.")
    return 0


def _status(asked: argparse.Namespace) -> int:
    from fuelmarks.server.status import status  # noqa: PLC0415

    lines, fine = status(read_server(asked.root))
    print("\n".join(lines))
    return 0 if fine else 1


def _remove(asked: argparse.Namespace) -> int:
    from fuelmarks.server.running import remove  # noqa: PLC0415

    server = read_server(asked.root)
    before = remove(server, with_accounts=asked.accounts, with_work=asked.work)
    left = [] if asked.work else [f"what was handed in, in {server.root / 'exchange'}"]
    left += [] if asked.accounts else ["the accounts with their homes"]
    left += [f"{', '.join(before)}, which this computer had before"] if before else []
    print(f"The class server is removed{'; kept: ' + ' and '.join(left) if left else ''}.")
    return 0


def _demo(asked: argparse.Namespace) -> int:
    from fuelmarks.server.demo import run_server_demo  # noqa: PLC0415

    return run_server_demo(asked.course, asked.into, asked.trainees, compiled=not asked.quick)


ACTIONS = {
    "setup": _setup,
    "start": _start,
    "stop": _stop,
    "status": _status,
    "remove": _remove,
    "demo": _demo,
}
