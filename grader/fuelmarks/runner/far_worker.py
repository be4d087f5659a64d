"""What a worker on another computer does: run the cells it is sent in a sandbox of its own.

Cells and limits come as JSON, outcomes and records go back as JSON; nothing else travels.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any, get_args

from distributed import WorkerPlugin, get_worker

from fuelmarks.runner.limits import Limits
from fuelmarks.runner.protocol import (
    BadReplyError,
    Cell,
    Outcome,
    RunResult,
    Status,
    checked_record,
)
from fuelmarks.runner.runner import Runner
from fuelmarks.runner.sandbox import SandboxError

__all__ = ["NAME", "Sandbox", "read_result", "run_task", "write_task"]

NAME = "fuelmarks-sandbox"


class Sandbox(WorkerPlugin):  # type: ignore[misc]
    """The runner of one worker: started with it, and ended with it."""

    name = NAME
    runner: Runner | None = None

    def setup(self, worker: Any) -> None:
        """Start the runner; raise `SandboxError` where notebooks cannot be confined."""
        self.runner = Runner().__enter__()

    def teardown(self, worker: Any) -> None:
        """End the runner with all it started: a worker that left one running would not end."""
        if self.runner is not None:
            self.runner.close()


def write_task(cells: Sequence[Cell], limits: Limits) -> bytes:
    """Return what is sent to a worker."""
    return json.dumps({"cells": [asdict(one) for one in cells], "limits": asdict(limits)}).encode()


def run_task(raw: bytes) -> bytes:
    """Run what was sent, on a worker; return what goes back."""
    sandbox = get_worker().plugins.get(NAME)
    if sandbox is None or sandbox.runner is None:
        raise SandboxError("a worker must have a sandbox, got one without")
    asked = json.loads(raw)
    cells = [Cell(**one) for one in asked["cells"]]
    found = sandbox.runner.run(cells, Limits(**asked["limits"]))
    outcomes = [asdict(one) for one in found.outcomes]
    return json.dumps({"outcomes": outcomes, "records": dict(found.records)}).encode()


def read_result(raw: bytes, cells: Sequence[Cell]) -> RunResult:
    """Return what came back, checked as a notebook's own reply is; raise `BadReplyError`."""
    told = json.loads(raw)
    outcomes = tuple(_outcome(one) for one in told["outcomes"])
    if [one.cell for one in outcomes] != [one.id for one in cells]:
        raise BadReplyError("a worker must tell of the cells it was sent, got others")
    hands_over = {one.id for one in cells if one.hands_over}
    if not told["records"].keys() <= hands_over:
        raise BadReplyError("a record must be of a cell that hands one over, got another")
    records = {name: checked_record(one) for name, one in told["records"].items()}
    return RunResult(outcomes, records, sum(one.seconds for one in outcomes))


def _outcome(told: Mapping[str, Any]) -> Outcome:
    """Return one outcome, everything checked."""
    one = Outcome(**told)
    texts = (one.cell, one.error, one.message, one.text)
    if one.status not in get_args(Status) or not all(isinstance(text, str) for text in texts):
        raise BadReplyError("an outcome must be a status and texts, got other things")
    return one
