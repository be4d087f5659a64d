"""What the class server is doing, as lines for a terminal."""

import json
import pwd

from fuelmarks.server.class_server import ClassServer
from fuelmarks.server.exchange.page import memory_of_accounts
from fuelmarks.server.exchange.store import Store
from fuelmarks.server.running import runs

__all__ = ["status"]


def status(server: ClassServer) -> tuple[list[str], bool]:
    """Return the lines, and whether the server runs."""
    up = runs(server)
    lines = [f"{server.front}: {'runs' if up else 'does not run'}"]
    people = json.loads((server.root / "people.json").read_bytes())["trainees"]
    memory = memory_of_accounts()
    busy = {name: memory[name] for name in people if name in memory}
    lines.append(f"{len(busy)} of {len(people)} trainees at work, {_megabytes(sum(busy.values()))}")
    lines += [f"  {name}  {_megabytes(size)}" for name, size in sorted(busy.items())]
    store = Store(server.root / "exchange")
    for unit in store.units():
        tries = store.class_of(unit)
        lines.append(f"{unit}: {sum(map(bool, tries.values()))} of {len(tries)} handed in")
    missing = [name for name in people if not _has_account(name)]
    if missing:
        lines.append(f"no account for {', '.join(missing)}: run setup again")
    return lines, up


def _has_account(name: str) -> bool:
    try:
        pwd.getpwnam(name)
    except KeyError:
        return False
    return True


def _megabytes(size: int) -> str:
    return f"{size / 2**20:,.0f} MB"
