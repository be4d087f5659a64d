"""Attacks on the exchange: each is refused in words, changes nothing, and stops nobody."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from fuelmarks.server.exchange.packing import LARGEST
from fuelmarks.server.exchange.store import A_MINUTE
from nbgrader.exchange import ExchangeError

from tests.server.counter import Counter
from tests.server.pressing import NOTEBOOK, press, wired
from tests.small_unit import UNIT

ATTACKS: dict[str, tuple[str, str, str, object, tuple[int, ...]]] = {
    "another's notebook": ("GET", f"release/{UNIT}/t002", "t001", None, (403,)),
    "another's hand-in": ("GET", f"hand-ins/{UNIT}/t002/1", "t001", None, (403,)),
    "the class's hand-ins": ("GET", f"hand-ins/{UNIT}", "t001", None, (403,)),
    "a release to another": ("PUT", f"release/{UNIT}/t002", "t001", wired(b"{}"), (403,)),
    "comments of one's own": ("PUT", f"feedback/{UNIT}/t001/1", "t001", {"page": "10/10"}, (403,)),
    "more time for oneself": ("PUT", f"window/{UNIT}", "t001", {"opens": None}, (403,)),
    "a forged token": ("GET", "units", "forged", None, (401,)),
    "a service's token": ("GET", "units", "a-service", None, (401,)),
    "an account of no list": ("GET", "units", "stranger", None, (403,)),
    "a changed attempt": ("PUT", f"hand-ins/{UNIT}/t001/1", "t001", wired(b"{}"), (405,)),
    "a deleted attempt": ("DELETE", f"hand-ins/{UNIT}/t001/1", "t001", None, (405,)),
    "a way out of the folder": ("GET", "release/..%2F..%2Fpeople.json", "t001", None, (400,)),
    "an instructor's hand-in": ("POST", f"hand-ins/{UNIT}", "teacher", wired(b"{}"), (403,)),
    "no JSON": ("POST", f"hand-ins/{UNIT}", "t001", "files", (400,)),
    "no base64": ("POST", f"hand-ins/{UNIT}", "t001", {"files": {NOTEBOOK: "%%"}}, (400,)),
}


@pytest.mark.parametrize("attack", ATTACKS.values(), ids=ATTACKS)
def test_an_attack_is_refused_in_words_and_changes_nothing(
    desk: Counter,
    round_of_work: dict[str, Path],
    attack: tuple[str, str, str, object, tuple[int, ...]],
) -> None:
    method, path, who, body, expected = attack
    before = everything(desk)
    status, told = desk.ask(method, path, f"token-of-{who}", body)
    assert status in expected
    assert told["why"]
    assert everything(desk) == before


def everything(desk: Counter) -> dict[str, bytes]:
    """Return all that the exchange holds."""
    found = [path for path in desk.store.root.rglob("*") if path.is_file()]
    return {str(path.relative_to(desk.store.root)): path.read_bytes() for path in found}


def test_no_token_opens_nothing(desk: Counter) -> None:
    assert desk.ask("GET", "units", "")[0] == 401


def test_a_huge_hand_in_is_refused_and_the_exchange_goes_on(
    desk: Counter, round_of_work: dict[str, Path]
) -> None:
    before = everything(desk)
    for size in (LARGEST + 1, 3 * LARGEST):
        assert desk.ask("POST", f"hand-ins/{UNIT}", "token-of-t001", wired(b"x" * size))[0] in (
            *(0, 400),
            413,
        )
    assert everything(desk) == before
    assert desk.ask("GET", "units", "token-of-t002")[0] == 200


def test_nested_json_is_refused_and_the_exchange_goes_on(desk: Counter) -> None:
    deep = b'{"files":' * 100_000
    assert desk.ask("POST", f"hand-ins/{UNIT}", "token-of-t001", raw=deep)[0] == 400
    assert desk.ask("GET", "units", "token-of-t002")[0] == 200


def test_a_date_that_is_sent_along_counts_for_nothing(
    desk: Counter, round_of_work: dict[str, Path]
) -> None:
    began = datetime.now(UTC)
    dated = {**wired(b"dated back"), "handed_in": "2020-01-01T00:00:00+00:00", "number": 1}
    status, told = desk.ask("POST", f"hand-ins/{UNIT}", "token-of-t002", dated)
    assert status == 200
    assert datetime.fromisoformat(told["handed_in"]) >= began
    assert told["number"] > 1


def test_a_link_in_ones_folder_hands_in_nothing(
    round_of_work: dict[str, Path], become: Callable[[str], None], tmp_path: Path
) -> None:
    become("t001")
    (tmp_path / UNIT).mkdir()
    (tmp_path / "secret").write_text("key")
    (tmp_path / UNIT / NOTEBOOK).symlink_to(tmp_path / "secret")
    with pytest.raises(ExchangeError, match="must be a plain file, got a link"):
        press("Submit", tmp_path)


def test_a_flood_keeps_few_and_leaves_the_others_served(
    desk: Counter, round_of_work: dict[str, Path]
) -> None:
    before = len(desk.store.hand_ins(UNIT, "t001"))
    asked = [
        desk.ask("POST", f"hand-ins/{UNIT}", "token-of-t001", wired(str(count).encode()))[0]
        for count in range(20)
    ]
    assert asked[-1] == 429
    assert len(desk.store.hand_ins(UNIT, "t001")) <= before + A_MINUTE
    assert desk.ask("GET", "units", "token-of-t002")[0] == 200
