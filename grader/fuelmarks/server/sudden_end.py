"""The hub killed in the middle of a hand-in, to see that nothing which was answered is lost."""

import hashlib
import http.client
import json
import os
import pwd
import random
import signal
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

from fuelmarks.server.class_server import ClassServer, ServerError
from fuelmarks.server.exchange.store import Store
from fuelmarks.server.running import process_of, start
from fuelmarks.server.visitor import Visitor

__all__ = ["Survived", "kill_hub"]

HAND_INS = 3
PATIENCE = 120.0


@dataclass
class Survived:
    """What was answered with "handed in", by its digest; what of it is kept; how often asked."""

    answered: list[str] = field(default_factory=list)
    kept: int = 0
    asked: int = 0
    same_server: bool = False


def kill_hub(server: ClassServer, visitor: Visitor, unit: str) -> Survived:
    """Kill the hub while `visitor` hands `unit` in over and over; start it, and look at the store.

    Raises `ServerError` if nothing is handed in before or after.
    """
    found, first = Survived(), threading.Event()
    began = _server_began(visitor)
    hands = threading.Thread(target=_hand_in, args=(visitor, unit, found, first))
    hands.start()
    if not first.wait(PATIENCE):
        raise ServerError(f"{unit} must be handed in before the hub is killed, got no answer")
    time.sleep(random.uniform(0, 0.1))
    os.kill(process_of(server), signal.SIGKILL)
    start(server)
    hands.join(PATIENCE)
    if len(found.answered) < HAND_INS:
        raise ServerError(f"{unit} must be handed in once the hub is back, got no answer")
    trainee = json.loads((server.root / "people.json").read_bytes())["trainees"][visitor.name]
    held = Store(server.root / "exchange").hand_ins(unit, trainee)
    found.kept = len({one.notebook for one in held} & set(found.answered))
    found.same_server = _server_began(visitor) == began
    return found


def _hand_in(visitor: Visitor, unit: str, found: Survived, first: threading.Event) -> None:
    """Hand in `HAND_INS` different notebooks, each until it is answered."""
    path = f"{unit}/{unit}.ipynb"
    own = Path(pwd.getpwnam(visitor.name).pw_dir) / path
    until = time.monotonic() + PATIENCE
    while len(found.answered) < HAND_INS and time.monotonic() < until:
        found.asked += 1
        try:
            notebook = visitor.work(path)
            notebook["metadata"]["saved_again"] = len(found.answered)
            visitor.save(path, notebook)
            digest = hashlib.sha256(own.read_bytes()).hexdigest()
            answered = visitor.press("submit", unit)[0]
        except (OSError, ServerError, ValueError, http.client.HTTPException):
            answered = False  # the way there was cut
        if answered:
            found.answered.append(digest)
            first.set()
        else:
            time.sleep(0.5)


def _server_began(visitor: Visitor) -> str:
    """Return when the visitor's own server began, as it says itself."""
    return str(json.loads(visitor.own("GET", "api/status")[1])["started"])
