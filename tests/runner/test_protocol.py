"""What comes back from a notebook's process is believed only if it is one well-formed reply."""

import json
from typing import Any

import pytest
from fuelcircuits.answer_sheet.sheet import record
from fuelmarks.runner import Cell
from fuelmarks.runner.protocol import (
    BadReplyError,
    Reply,
    longest_reply,
    read_reply,
    write_request,
)
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
    assert read(reply(records=[])).record is None


def test_a_request_is_one_line_with_the_source_whole() -> None:
    line = write_request(Cell("c", "a = 1\nb = '\u2028'\n"), "n")
    assert (line.count(b"\n"), line[-1:]) == (1, b"\n")
    assert json.loads(line) == {"nonce": "n", "source": "a = 1\nb = '\u2028'\n"}


@pytest.mark.parametrize("name", ["", "NameError"])
def test_the_class_of_an_error_is_kept(name: str) -> None:
    assert read(reply(error=name)).error == name


LONG = dict.fromkeys(("unit", "exercise", "units", "text", "detail"), "ก" * 9000)


def test_what_is_long_is_cut_short() -> None:
    found = read(reply(error="E" * 999, message="m" * 999, text="t" * 1999))
    assert [len(text) for text in (found.error, found.message, found.text)] == [100, 500, 1000]
    record = read(reply(records=[{**ANSWER, **LONG}])).record
    assert record is not None
    assert {len(str(record[name])) for name in LONG} == {2000}  # type: ignore[literal-required]


def test_the_longest_reply_that_is_kept_whole_may_come() -> None:
    cut = {name: text[:2000] for name, text in LONG.items()}
    texts = {"error": "E" * 100, "message": "\x07" * 500, "text": "\x07" * 1000}
    longest = reply(**texts, records=[{**ANSWER, **cut}])
    assert len(longest) <= longest_reply(1000)
    assert read(longest).record is not None


@pytest.mark.parametrize(
    ("line", "rule"),
    [
        (b"", "reply must be one line of JSON"),
        (b"[]", "reply must be a JSON object"),
        (b"null", "reply must be a JSON object"),
        (b"{" * 100_000, "reply must be one line of JSON"),
        (b"\xff\xfe", "reply must be one line of JSON"),
        (reply() + b"x", "reply must be one line of JSON"),
        (reply(nonce="m"), "reply must answer the cell that was asked for"),
        (reply(nonce=None), "reply must answer the cell that was asked for"),
        (reply(points=1), "reply must have exactly its five keys"),
        (reply(text=1), "text must be a string"),
        (reply(error=None), "text must be a string"),
        (reply(records={}), "cell hands over one record at most"),
        (reply(records=[ANSWER, ANSWER]), "cell hands over one record at most"),
        (reply(records=[1]), "record must have exactly its keys"),
        (reply(records=[{}]), "record must have exactly its keys"),
        (reply(records=[{**ANSWER, "points": 1}]), "record must have exactly its keys"),
        (reply(records=[{**ANSWER, "v": True}]), "record must be of version 1"),
        (reply(records=[{**ANSWER, "v": 2}]), "record must be of version 1"),
        (reply(records=[{**ANSWER, "kind": "full marks"}]), "record must be of a known kind"),
        (reply(records=[{**ANSWER, "kind": ["quantity"]}]), "record must be of a known kind"),
        (reply(records=[{**ANSWER, "units": None}]), "text must be a string"),
        (reply(records=[{**ANSWER, "magnitude": "1.5"}]), "magnitude must be a number or null"),
        (reply(records=[{**ANSWER, "magnitude": True}]), "magnitude must be a number or null"),
        (reply(records=[{**ANSWER, "magnitude": [1.5]}]), "magnitude must be a number or null"),
        (reply(records=[{**ANSWER, "magnitude": float("nan")}]), "reply must be one line of JSON"),
        (reply(records=[{**ANSWER, "magnitude": 10**400}]), "magnitude must fit a float"),
        (reply().replace(b"1.5", b"1e999"), "magnitude must be finite"),
    ],
)
def test_a_malformed_reply_is_refused(line: bytes, rule: str) -> None:
    with pytest.raises(BadReplyError, match=f"^a {rule}$"):
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
