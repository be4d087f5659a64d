"""A notebook's own process: run the cell that is asked for, send back values.

Everything here runs beside a stranger's code and may be changed by it. It holds nothing worth
having; what it sends is checked on the other side.
"""

import json
import os
import signal
import socket
import sys
import traceback
from typing import Any, NoReturn

from fuelmarks.runner.limits import Limits
from fuelmarks.runner.shell import Printout, Shell

__all__ = ["converse"]


def converse(channel: socket.socket, shell: Shell, limits: Limits) -> NoReturn:
    """Answer every request that comes through `channel`, then end the process."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for line in channel.makefile("rb"):
        request = json.loads(line)
        reply = {"nonce": request["nonce"], **_run(shell, request["source"], limits)}
        channel.sendall(_encode(reply) + b"\n")
    os._exit(0)


def _run(shell: Shell, source: str, limits: Limits) -> dict[str, Any]:
    printout = Printout(limits.output_bytes)
    shell.records = []
    sys.stdout = sys.stderr = printout
    error = _execute(shell, source)
    return {**_describe(error), "text": printout.kept(), "records": shell.records}


def _execute(shell: Shell, source: str) -> BaseException | None:
    """Run one cell; an interrupt from outside reaches the cell, and nothing but the cell."""
    try:
        signal.signal(signal.SIGINT, signal.default_int_handler)
        result = shell.run_cell(source, store_history=True)  # type: ignore[no-untyped-call]
        return result.error_before_exec or result.error_in_exec  # type: ignore[no-any-return]
    except BaseException as error:
        return error
    finally:
        signal.signal(signal.SIGINT, signal.SIG_IGN)


def _describe(error: BaseException | None) -> dict[str, str]:
    if error is None:
        return {"error": "", "message": ""}
    try:
        message = f"{error.msg if isinstance(error, SyntaxError) else error}{_where(error)}"
    except BaseException:
        message = "an error that cannot be shown"
    return {"error": type(error).__name__, "message": message}


def _where(error: BaseException) -> str:
    """Return the line of the cell that an error comes from, as a trainee counts lines."""
    if isinstance(error, SyntaxError):
        return f" (line {error.lineno})"
    frames = traceback.walk_tb(error.__traceback__)
    lines = [n for frame, n in frames if frame.f_code.co_filename.startswith("<ipython-input")]
    return f" (line {lines[-1]})" if lines else ""


def _encode(reply: dict[str, Any]) -> bytes:
    try:
        text = json.dumps(reply, allow_nan=False)
    except (TypeError, ValueError, RecursionError):
        text = json.dumps({**reply, "records": [], "error": "ValueError"})
    return text.encode()
