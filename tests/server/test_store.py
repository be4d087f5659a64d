"""What the exchange holds: everybody's own, the server's clock, attempts that nobody changes."""

import stat
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from fuelmarks.course.window import Window
from fuelmarks.server.exchange import store as limits
from fuelmarks.server.exchange.packing import LARGEST, MOST_FILES, ExchangeRefusalError
from fuelmarks.server.exchange.store import A_MINUTE, Store

UNIT, NOTEBOOK = "02-float-bowl", "02-float-bowl.ipynb"
NINE = datetime(2026, 12, 4, 9, 0, tzinfo=UTC)


class Clock:
    """A clock that a test turns."""

    def __init__(self) -> None:
        self.at = NINE

    def __call__(self) -> datetime:
        return self.at

    def wait(self, **how_long: float) -> None:
        self.at += timedelta(**how_long)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store(tmp_path: Path, clock: Clock) -> Store:
    found = Store(tmp_path, clock)
    for trainee in ("t001", "t002"):
        found.release(UNIT, trainee, {NOTEBOOK: trainee.encode()})
    return found


def work(text: str) -> dict[str, bytes]:
    return {NOTEBOOK: text.encode()}


def test_everybody_fetches_what_was_released_to_him(store: Store) -> None:
    assert store.fetch(UNIT, "t001") == {NOTEBOOK: b"t001"}
    assert store.fetch(UNIT, "t002") == {NOTEBOOK: b"t002"}
    with pytest.raises(ExchangeRefusalError, match="must have been released to you"):
        store.fetch(UNIT, "t003")


def test_what_is_asked_for_in_vain_leaves_nothing_behind(store: Store) -> None:
    """Whoever asks for units that there are not fills no disk, and no instructor's list."""
    before = sorted(store.root.rglob("*"))
    with pytest.raises(ExchangeRefusalError, match="99-invented must have been released to you"):
        store.fetch("99-invented", "t001")
    with pytest.raises(ExchangeRefusalError, match="99-invented must have been released to you"):
        store.hand_in("99-invented", "t001", {"99-invented.ipynb": b"{}"})
    with pytest.raises(ExchangeRefusalError, match="must have comments, got none yet"):
        store.feedback("98-invented", "t001", 1)
    assert store.hand_ins("97-invented", "t001") == ()
    assert store.units() == [UNIT]
    assert sorted(store.root.rglob("*")) == before


def test_a_hand_in_has_the_servers_time_and_all_its_files(store: Store, clock: Clock) -> None:
    clock.wait(minutes=5)
    kept = store.hand_in(UNIT, "t001", {**work("done"), "bowl.png": b"\x89PNG"})
    assert (kept.number, kept.handed_in) == (1, NINE + timedelta(minutes=5))
    assert kept.names == (NOTEBOOK, "bowl.png")
    assert store.one(UNIT, "t001", 1).files() == {NOTEBOOK: b"done", "bowl.png": b"\x89PNG"}


def test_an_attempt_is_written_once_and_only_its_keeper_can_read_it(store: Store) -> None:
    kept = store.hand_in(UNIT, "t001", work("done"))
    assert stat.S_IMODE(kept.path.stat().st_mode) == 0o400
    before = kept.path.read_bytes()
    store.hand_in(UNIT, "t001", work("other"))
    assert kept.path.read_bytes() == before


def test_the_same_sent_again_is_the_same_attempt_and_a_return_to_it_is_a_new_one(
    store: Store, clock: Clock
) -> None:
    numbers = []
    for text in ("a", "a", "b", "a"):
        numbers.append(store.hand_in(UNIT, "t001", work(text)).number)
        clock.wait(minutes=1)
    assert numbers == [1, 1, 2, 3]


def test_what_a_stopped_write_left_is_no_attempt(store: Store) -> None:
    kept = store.hand_in(UNIT, "t001", work("a"))
    kept.path.with_name(".002.part").write_bytes(b"half of it")
    assert [one.number for one in store.hand_ins(UNIT, "t001")] == [1]
    assert store.hand_in(UNIT, "t001", work("b")).files() == work("b")


def test_who_hands_in_too_often_waits_and_nothing_of_his_is_lost(
    store: Store, clock: Clock
) -> None:
    for count in range(A_MINUTE):
        store.hand_in(UNIT, "t001", work(str(count)))
    with pytest.raises(ExchangeRefusalError, match="wait a minute"):
        store.hand_in(UNIT, "t001", work("more"))
    assert store.hand_in(UNIT, "t002", work("mine")).number == 1
    clock.wait(minutes=1)
    assert store.hand_in(UNIT, "t001", work("more")).number == A_MINUTE + 1


def test_there_is_an_end_to_attempts_and_to_room(
    store: Store, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "MOST_TRIES", 3)
    monkeypatch.setattr(limits, "ALLOWANCE", 2000)
    for count in range(3):
        store.hand_in(UNIT, "t001", work(str(count)))
    with pytest.raises(ExchangeRefusalError, match="3 times or fewer"):
        store.hand_in(UNIT, "t001", work("more"))
    with pytest.raises(ExchangeRefusalError, match="must take 0 MB or less altogether"):
        store.hand_in(UNIT, "t002", work("x" * 2000))


BAD_FILES = {
    "no notebook": {"other.ipynb": b""},
    "a way up": {NOTEBOOK: b"", "../t002": b""},
    "a way out": {NOTEBOOK: b"", "/etc/passwd": b""},
    "a hidden file": {NOTEBOOK: b"", ".bashrc": b""},
    "too much": {NOTEBOOK: b"x" * (LARGEST + 1)},
    "too many": {NOTEBOOK: b"", **{f"{count}.png": b"" for count in range(MOST_FILES)}},
}


@pytest.mark.parametrize("files", BAD_FILES.values(), ids=BAD_FILES)
def test_what_is_no_notebook_with_its_files_is_refused(
    store: Store, files: dict[str, bytes]
) -> None:
    with pytest.raises(ExchangeRefusalError):
        store.hand_in(UNIT, "t001", files)
    assert store.hand_ins(UNIT, "t001") == ()


@pytest.mark.parametrize("name", ["..", "t001/../t002", "", ".hidden", "t001\0", "a" * 70])
def test_a_name_that_could_lead_elsewhere_is_refused(store: Store, name: str) -> None:
    with pytest.raises(ExchangeRefusalError, match="must be a plain name"):
        store.one(name, "t001", 1)
    if name:
        with pytest.raises(ExchangeRefusalError, match="must be a plain name"):
            store.fetch(UNIT, name)


def test_an_examination_opens_and_closes_by_the_clock(store: Store, clock: Clock) -> None:
    window = Window(NINE + timedelta(hours=1), NINE + timedelta(hours=2), {"t002": 20.0})
    store.set_window(UNIT, window)
    assert store.window(UNIT) == window
    assert store.released("t001") == []
    with pytest.raises(ExchangeRefusalError, match="must be asked for once it opens"):
        store.fetch(UNIT, "t001")
    clock.wait(hours=1)
    assert store.released("t001") == [UNIT]
    assert store.hand_in(UNIT, "t001", work("in time")).number == 1
    clock.wait(hours=1, seconds=1)
    with pytest.raises(ExchangeRefusalError, match="must be handed in before it closes"):
        store.hand_in(UNIT, "t001", work("too late"))
    assert store.hand_in(UNIT, "t002", work("longer")).number == 1
    clock.wait(minutes=20)
    with pytest.raises(ExchangeRefusalError, match="stays in your folder"):
        store.hand_in(UNIT, "t002", work("too late too"))


def test_comments_belong_to_an_attempt_that_is_there(store: Store) -> None:
    store.hand_in(UNIT, "t001", work("a"))
    store.give_feedback(UNIT, "t001", 1, "<p>Well done.</p>")
    assert store.feedback(UNIT, "t001", 1) == "<p>Well done.</p>"
    with pytest.raises(ExchangeRefusalError, match="must have comments, got none yet"):
        store.feedback(UNIT, "t002", 1)
    with pytest.raises(ExchangeRefusalError, match="attempt must be one of t002's"):
        store.give_feedback(UNIT, "t002", 1, "lost")
