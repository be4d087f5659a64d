"""What goes in and what comes out: cells, outcomes, and the one line that carries an answer.

The trusted side sends one line of JSON a cell, the notebook's process sends one line back. Nothing
a notebook sends is believed before `read_reply` has checked every key, type and length; a record
belongs to the cell that was asked for, whatever the line says.
"""

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, get_args

from fuelcircuits.answer_sheet.record import DRIVE, LONGEST_DRIVE, Kind, Record
from fuelcircuits.answer_sheet.record import MIME as ANSWER_MIME

__all__ = [
    "ANSWER_MIME",
    "LONGEST_REHEARSAL",
    "BadReplyError",
    "Cell",
    "Outcome",
    "Reply",
    "RunResult",
    "Status",
    "checked_record",
    "longest_reply",
    "read_reply",
    "write_request",
]

Status = Literal["ok", "error", "timeout", "killed", "not-reached"]

LONGEST_REHEARSAL = 128 << 10
"""The longest message that says what is run beforehand [bytes]."""
_LONGEST_TEXT = 2000
_LONGEST_MESSAGE = 500


class BadReplyError(Exception):
    """A notebook's process sent something other than one well-formed reply."""


@dataclass(frozen=True)
class Cell:
    """One code cell: a name of the caller's choice, its source, whether it hands a value over.

    `hands_over` is set by the caller, for cells whose source comes from the instructor; only
    such a cell can yield a record.
    """

    id: str
    source: str
    hands_over: bool = False


@dataclass(frozen=True)
class Outcome:
    """What became of one cell; `error` is the class name, `text` all it printed, cut short."""

    cell: str
    status: Status
    error: str = ""
    message: str = ""
    text: str = ""
    seconds: float = 0.0


@dataclass(frozen=True)
class RunResult:
    """The outcomes in the order of the cells, and the record of each cell that handed one over."""

    outcomes: tuple[Outcome, ...]
    records: Mapping[str, Record] = field(default_factory=dict)
    seconds: float = 0.0


@dataclass(frozen=True)
class Reply:
    """One reply, checked: every text is plain and short, the record (if any) is well formed."""

    error: str
    message: str
    text: str
    record: Record | None


def write_request(cell: Cell, nonce: str) -> bytes:
    """Return the line that asks for `cell` to be run."""
    return json.dumps({"nonce": nonce, "source": cell.source}).encode() + b"\n"


def longest_reply(output_bytes: int) -> int:
    """Return how long a reply may be [bytes]; JSON writes a control character as six."""
    return 6 * output_bytes + (64 << 10)


def read_reply(line: bytes, nonce: str, cell: Cell, output_bytes: int) -> Reply:
    """Return the reply in `line`, or raise `BadReplyError`.

    Records are dropped unless `cell` hands a value over; more than one is an error.
    """
    reply = _parse(line)
    if set(reply) != {"nonce", "error", "message", "text", "records"}:
        raise BadReplyError("a reply must have exactly its five keys")
    if reply["nonce"] != nonce:
        raise BadReplyError("a reply must answer the cell that was asked for")
    return Reply(
        error=_class_name(_text(reply["error"], 100)),
        message=_plain(_text(reply["message"], _LONGEST_MESSAGE)),
        text=_plain(_text(reply["text"], output_bytes)),
        record=_one_record(reply["records"]) if cell.hands_over else None,
    )


def _parse(line: bytes) -> dict[str, Any]:
    try:
        reply = json.loads(line, parse_constant=_refuse)
    except (ValueError, RecursionError) as error:
        raise BadReplyError("a reply must be one line of JSON") from error
    if not isinstance(reply, dict):
        raise BadReplyError("a reply must be a JSON object")
    return reply


def _longest(text: Any) -> int:
    """Return how much of a text of a record is kept: more of a drive than of other answers."""
    drive = isinstance(text, str) and text.startswith(DRIVE)
    return LONGEST_DRIVE + 1 if drive else _LONGEST_TEXT


def _refuse(name: str) -> None:
    raise ValueError(f"{name} is not JSON")


def _text(value: Any, longest: int) -> str:
    if not isinstance(value, str):
        raise BadReplyError("a text must be a string")
    return value[:longest]


def _plain(text: str) -> str:
    """Return `text` without control characters other than line ends and tabs."""
    kept = "".join(c for c in text if c.isprintable() or c in "\n\t")
    return kept.encode("utf-8", "replace").decode()


def _class_name(name: str) -> str:
    return name if name == "" or name.isidentifier() else "Exception"


def _one_record(records: Any) -> Record | None:
    if not isinstance(records, list) or len(records) > 1:
        raise BadReplyError("a cell hands over one record at most")
    return checked_record(records[0]) if records else None


def checked_record(record: Any) -> Record:
    """Return a record with every key, type and length checked; raise `BadReplyError`."""
    if not isinstance(record, dict) or set(record) != Record.__required_keys__:
        raise BadReplyError("a record must have exactly its keys")
    if type(record["v"]) is not int or record["v"] != 1:
        raise BadReplyError("a record must be of version 1")
    if record["kind"] not in get_args(Kind):
        raise BadReplyError("a record must be of a known kind")
    unit, exercise, units, text, detail = (
        _plain(_text(record[name], _longest(record[name])))
        for name in ("unit", "exercise", "units", "text", "detail")
    )
    return Record(
        v=1,
        unit=unit,
        exercise=exercise,
        kind=record["kind"],
        magnitude=_magnitude(record["magnitude"]),
        units=units,
        text=text,
        detail=detail,
    )


def _magnitude(value: Any) -> float | None:
    if value is None:
        return None
    if type(value) not in (int, float):
        raise BadReplyError("a magnitude must be a number or null")
    try:
        number = float(value)
    except OverflowError as error:
        raise BadReplyError("a magnitude must fit a float") from error
    if not math.isfinite(number):
        raise BadReplyError("a magnitude must be finite")
    return number
