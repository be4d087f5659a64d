"""Files as the exchange keeps and sends them, each name checked; and how it refuses."""

import base64
import binascii
import json
import re
from collections.abc import Mapping
from typing import Any, TypeAlias

from fuelcircuits.errors import CircuitError

__all__ = [
    "LARGEST",
    "ExchangeRefusalError",
    "Files",
    "check_files",
    "check_name",
    "packed",
    "unpacked",
    "unpacked_line",
    "wired",
]

NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_. -]{0,99}")
LARGEST, MOST_FILES = 8 << 20, 50
Files: TypeAlias = Mapping[str, bytes]


class ExchangeRefusalError(CircuitError):
    """Something is refused; the message says why, `status` is HTTP's."""

    def __init__(self, status: int, why: str) -> None:
        super().__init__(why)
        self.status = status


def check_name(value: str, pattern: re.Pattern[str], what: str) -> None:
    """Refuse a name that could lead anywhere else."""
    if not pattern.fullmatch(value):
        raise ExchangeRefusalError(400, f"{what} must be a plain name, got {value[:80]!r}")


def check_files(unit: str, files: Files) -> None:
    """Refuse files that are no notebook of `unit` and what may lie beside it."""
    if f"{unit}.ipynb" not in files:
        raise ExchangeRefusalError(400, f"{unit}.ipynb must be among the files, got none")
    if len(files) > MOST_FILES:
        rule = f"files must be {MOST_FILES} or fewer"
        raise ExchangeRefusalError(413, f"{rule}, got {len(files)}")
    for name in files:
        check_name(name, NAME, "name of a file")
    if (size := sum(map(len, files.values()))) > LARGEST:
        rule = f"files must be {LARGEST >> 20} MB or less altogether"
        raise ExchangeRefusalError(413, f"{rule}, got {size / 2**20:.1f} MB")


def wired(files: Files) -> dict[str, str]:
    """Return files by name in base64, as JSON can carry them."""
    return {name: base64.b64encode(data).decode() for name, data in files.items()}


def packed(files: Files) -> bytes:
    """Return files as one line of JSON, the same for the same files."""
    return json.dumps(wired(dict(sorted(files.items())))).encode()


def unpacked_line(raw: bytes) -> dict[str, bytes]:
    """Return the files that `packed` packed."""
    return unpacked(json.loads(raw))


def unpacked(held: Any) -> dict[str, bytes]:
    """Return files by name from base64 by name; refuse anything else."""
    if not isinstance(held, dict):
        raise ExchangeRefusalError(
            400, "files must be a table of names and base64, got another kind"
        )
    try:
        return {str(name): base64.b64decode(data, validate=True) for name, data in held.items()}
    except (TypeError, ValueError, binascii.Error) as error:
        raise ExchangeRefusalError(400, f"files must be in base64, got: {error}") from error
