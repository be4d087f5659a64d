"""What comes back from a notebook's process is believed only if it is one well-formed reply."""

import json
from typing import Any

import pytest
from fuelcircuits.answer_sheet.sheet import record
from fuelmarks.runner import Cell
from fuelmarks.runner.protocol import BadReplyError, Reply, read_reply
from hypothesis import given
from hypothesis import strategies as st

ANSWER = dict(record("02-float-bowl", "needle-force", 1.5))
GOOD: dict[str, Any] = {"nonce": "n", "error": "", "message": "", "text": "", "records": [ANSWER]}


def reply(**changes: Any) -> bytes:
    return json.dumps({**GOOD, **changes}).encode()


def read(line: bytes, *, hands_over: bool = True) -> Reply:
    return read_reply(line, "n", Cell("c", "", hands_over), 1000)


def test_a_good_reply_is_read() -> None:
    assert read(reply()).record == ANSWER
    assert read(reply(), hands_over=False).record is None


@pytest.mark.parametrize(
    "line",
    [
        b"",
        b"[]",
        b"null",
        b"{" * 100_000,
        b"\xff\xfe",
        reply() + b"x",
        reply(nonce="m"),
        reply(nonce=None),
        reply(points=1),
        reply(text=1),
        reply(error=None),
        reply(records={}),
        reply(records=[ANSWER, ANSWER]),
        reply(records=[1]),
        reply(records=[{}]),
        reply(records=[{**ANSWER, "points": 1}]),
        reply(records=[{**ANSWER, "v": True}]),
        reply(records=[{**ANSWER, "v": 2}]),
        reply(records=[{**ANSWER, "kind": "full marks"}]),
        reply(records=[{**ANSWER, "kind": ["quantity"]}]),
        reply(records=[{**ANSWER, "units": None}]),
        reply(records=[{**ANSWER, "magnitude": "1.5"}]),
        reply(records=[{**ANSWER, "magnitude": True}]),
        reply(records=[{**ANSWER, "magnitude": float("nan")}]),
        reply(records=[{**ANSWER, "magnitude": 10**400}]),
        reply(records=[{**ANSWER, "magnitude": [1.5]}]),
        reply().replace(b"1.5", b"1e999"),
    ],
)
def test_a_malformed_reply_is_refused(line: bytes) -> None:
    with pytest.raises(BadReplyError):
        read(line)


@given(
    st.binary()
    | st.recursive(st.none() | st.floats() | st.text(), st.lists).map(repr).map(str.encode)
)
def test_no_bytes_do_more_than_be_refused(line: bytes) -> None:
    with pytest.raises(BadReplyError):
        read(line)


@given(
    st.dictionaries(
        st.sampled_from(sorted(ANSWER)), st.none() | st.floats() | st.text() | st.booleans()
    )
)
def test_no_record_brings_more_than_short_texts_and_a_finite_number(
    changes: dict[str, Any],
) -> None:
    try:
        answer = read(reply(records=[{**ANSWER, **changes}])).record
    except BadReplyError:
        return
    assert answer is not None
    assert answer["magnitude"] is None or abs(answer["magnitude"]) < float("inf")
    assert all(len(value) <= 2000 for value in answer.values() if isinstance(value, str))


def test_texts_lose_what_steers_a_terminal() -> None:
    read_back = read(reply(text="a\x1b[31mb\x00\tc\n", error="No Such <b>", message="\x07m"))
    assert (read_back.text, read_back.error, read_back.message) == ("a[31mb\tc\n", "Exception", "m")
