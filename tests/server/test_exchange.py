"""The exchange as a process: a round through nbgrader's own classes, attacks, and sudden ends."""

import base64
import random
import threading
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.book.pages import write_reports
from fuelmarks.classroom import own_exchange
from fuelmarks.classroom.attempts import attempts, retime
from fuelmarks.classroom.exchange import collect_sent, release, send_feedback
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.commands.cli import main
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import grade_id, read, write
from fuelmarks.gradebook.settings import settings
from fuelmarks.server.exchange.store import A_MINUTE, LARGEST
from nbgrader.coursedir import CourseDirectory
from nbgrader.exchange import ExchangeError, ExchangeFactory
from traitlets.config import Config

from tests.server.counter import Counter, counter
from tests.small_unit import UNIT, new_course

NOTEBOOK = f"{UNIT}.ipynb"


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Counter]:
    with counter(tmp_path_factory.mktemp("counter")) as found:
        yield found


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Course:
    found = new_course(tmp_path_factory.mktemp("course"), trainees=2)
    build(found, UNIT)
    list(hand_out(found, UNIT))
    return found


@pytest.fixture
def become(desk: Counter, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Have what follows done by somebody."""
    monkeypatch.setenv(own_exchange.ADDRESS, desk.address)

    def as_whom(name: str) -> None:
        monkeypatch.setenv(own_exchange.TOKEN, f"token-of-{name}")

    return as_whom


def press(kind: str, folder: Path, **how: object) -> Any:
    """Do what a button of the Assignment List does, for somebody who works in `folder`."""
    config = Config({"CourseDirectory": {"course_id": "fuelcircuits", "assignment_id": UNIT}})
    own = getattr(own_exchange, kind)
    button = own(coursedir=CourseDirectory(config=config), authenticator=None, config=config)
    button.assignment_dir = str(folder)
    for name, value in how.items():
        setattr(button, name, value)
    return button.start()


def wired(text: bytes) -> dict[str, object]:
    return {"files": {NOTEBOOK: base64.b64encode(text).decode()}}


def answer(path: Path, words: str) -> None:
    """Write `words` as the written answer, as somebody in JupyterLab does."""
    notebook = read(path)
    for cell in notebook.cells:
        if grade_id(cell) == "90-say-it":
            cell.source = words
    write(notebook, path)


@pytest.fixture(scope="module")
def round_of_work(
    desk: Counter, course: Course, tmp_path_factory: pytest.TempPathFactory
) -> dict[str, Path]:
    """One round as far as the hand-in, by both trainees; return where each works."""
    homes = {name: tmp_path_factory.mktemp(name) for name in ("t001", "t002")}
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(own_exchange.ADDRESS, desk.address)
        patch.setenv(own_exchange.TOKEN, "token-of-teacher")
        assert [why for _, why in release(course, UNIT)] == ["", ""]
        for name, home in homes.items():
            patch.setenv(own_exchange.TOKEN, f"token-of-{name}")
            press("FetchAssignment", home)
            answer(home / UNIT / NOTEBOOK, f"Words of {name}.")
            press("Submit", home)
    return homes


def test_each_fetches_his_own_notebook(round_of_work: dict[str, Path], course: Course) -> None:
    for name, home in round_of_work.items():
        given = read(course.notebook("handout", UNIT, name))
        fetched = read(home / UNIT / NOTEBOOK)
        assert fetched.cells[0] == given.cells[0]
        assert name in fetched.cells[[grade_id(c) for c in given.cells].index("90-begin")].source


def test_what_was_fetched_is_never_written_over(
    round_of_work: dict[str, Path], become: Callable[[str], None]
) -> None:
    become("t001")
    before = (round_of_work["t001"] / UNIT / NOTEBOOK).read_bytes()
    with pytest.raises(ExchangeError, match="must be fetched once"):
        press("FetchAssignment", round_of_work["t001"])
    press("FetchAssignment", round_of_work["t001"], replace_missing_files=True)
    assert (round_of_work["t001"] / UNIT / NOTEBOOK).read_bytes() == before


def test_the_list_shows_what_is_released_and_what_was_handed_in(
    desk: Counter, round_of_work: dict[str, Path], become: Callable[[str], None]
) -> None:
    become("t001")
    (one,) = press("List", round_of_work["t001"])
    assert (one["assignment_id"], one["status"]) == (UNIT, "fetched")
    (handed,) = press("List", round_of_work["t001"], cached=True)
    (attempt,) = handed["submissions"]
    today = f"{desk.store.hand_ins(UNIT, 't001')[0].handed_in:%Y-%m-%d %H.%M.%S}"
    assert attempt["timestamp"] == f"{today} UTC, attempt 1"


def test_what_is_collected_is_kept_marked_and_given_back_to_its_owner_alone(
    round_of_work: dict[str, Path], course: Course, become: Callable[[str], None]
) -> None:
    become("teacher")
    assert [row.outcome for row in collect_sent(course, UNIT).rows] == ["kept", "kept"]
    assert [row.outcome for row in collect_sent(course, UNIT).rows] == ["kept before"] * 2
    assert [done.state for done in mark_class(course, UNIT)] == ["marked", "marked"]
    list(write_reports(course, UNIT))
    assert [why for _, why in send_feedback(course, UNIT)] == ["", ""]
    for name, home in round_of_work.items():
        become(name)
        press("FetchFeedback", home)
        (page,) = (home / UNIT / "feedback").glob("*/*.html")
        own = course.root / "reports" / UNIT / "trainees" / f"{name}.html"
        assert page.read_bytes() == own.read_bytes()
        (listed,) = press("List", home, cached=True)
        assert listed["submissions"][0]["has_local_feedback"]
        assert not listed["submissions"][0]["feedback_updated"]


def test_a_later_attempt_counts_with_its_own_time_and_a_corrected_time_stays(
    round_of_work: dict[str, Path], course: Course, become: Callable[[str], None]
) -> None:
    become("t001")
    answer(round_of_work["t001"] / UNIT / NOTEBOOK, "Better words.")
    began = datetime.now(UTC)
    press("Submit", round_of_work["t001"])
    become("teacher")
    collect_sent(course, UNIT)
    *_, last = attempts(course, UNIT, "t001")
    assert began <= last.handed_in <= datetime.now(UTC)
    forgiven = datetime(2026, 1, 2, 3, 4, tzinfo=UTC)
    retime(last, forgiven)
    collect_sent(course, UNIT)
    *_, again = attempts(course, UNIT, "t001")
    assert (again.number, again.handed_in) == (last.number, forgiven)


def test_the_instructors_buttons_release_and_collect_too(
    round_of_work: dict[str, Path], course: Course, become: Callable[[str], None]
) -> None:
    become("teacher")
    config = settings(course)
    directory = CourseDirectory(config=config, assignment_id=UNIT)
    exchange = ExchangeFactory(config=config)
    exchange.ReleaseAssignment(coursedir=directory, authenticator=None).start()
    exchange.Collect(coursedir=directory, authenticator=None).start()
    exchange.ReleaseFeedback(coursedir=directory, authenticator=None).start()
    (listed,) = exchange.List(coursedir=directory, authenticator=None).start()
    assert listed["assignment_id"] == UNIT


def test_the_commands_do_the_same(
    round_of_work: dict[str, Path],
    course: Course,
    become: Callable[[str], None],
    capsys: pytest.CaptureFixture[str],
) -> None:
    become("teacher")
    here = ["--course", str(course.root)]
    assert main(["hand-out", UNIT, "--release", *here]) == 0
    assert "2 released on the class server, 0 not" in capsys.readouterr().out
    assert main(["collect", UNIT, *here]) == 0
    assert "0 kept of 3 delivered" in capsys.readouterr().out
    assert main(["report", UNIT, "--release", *here]) == 0
    assert "2 given back on the class server, 0 not" in capsys.readouterr().out


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


def test_anothers_work_under_ones_own_name_is_told_and_counts_for_nobody(
    desk: Counter,
    round_of_work: dict[str, Path],
    course: Course,
    become: Callable[[str], None],
    tmp_path: Path,
) -> None:
    other = read(round_of_work["t002"] / UNIT / NOTEBOOK)
    write(other, tmp_path / "copied.ipynb")
    answer(tmp_path / "copied.ipynb", "Copied, then changed a little.")
    before = [len(attempts(course, UNIT, name)) for name in ("t001", "t002")]
    sent = wired((tmp_path / "copied.ipynb").read_bytes())
    assert desk.ask("POST", f"hand-ins/{UNIT}", "token-of-t001", sent)[0] == 200
    become("teacher")
    found = [row for row in collect_sent(course, UNIT).rows if row.outcome == "another's"]
    assert [row.words for row in found] == ["is the work of t002, delivered as t001"]
    assert [len(attempts(course, UNIT, name)) for name in ("t001", "t002")] == before


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


def test_what_was_answered_survives_a_sudden_end_and_the_trainee_notices_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The service is killed over and over while one trainee hands in, as his own server would."""
    chance = random.Random("sudden ends")
    with counter(tmp_path) as desk:
        for number in range(1, 7):
            desk.store.release(f"{number:02}-unit", "t001", {f"{number:02}-unit.ipynb": b"{}"})
        monkeypatch.setenv(own_exchange.ADDRESS, desk.address)
        monkeypatch.setenv(own_exchange.TOKEN, "token-of-t001")
        answered: list[tuple[str, str, int]] = []
        done = threading.Event()

        def work() -> None:
            link = own_exchange.Link(patience=60)
            for count in range(5):
                for number in range(1, 7):
                    unit, text = f"{number:02}-unit", f"{number} {count} " + "x" * 300_000
                    data = base64.b64encode(text.encode()).decode()
                    told = link.ask(
                        *("POST", "hand-ins", unit), body={"files": {f"{unit}.ipynb": data}}
                    )
                    answered.append((unit, text, told["number"]))
            done.set()

        worker = threading.Thread(target=work)
        worker.start()
        for _ in range(3):
            time.sleep(chance.uniform(0.02, 0.2))
            desk.kill()
            desk.begin()
        worker.join(120)
        assert done.is_set()
    for unit, text, number in answered:
        assert desk.store.one(unit, "t001", number).files()[f"{unit}.ipynb"].decode() == text
    kept = {unit: len(desk.store.hand_ins(unit, "t001")) for unit, _, _ in answered}
    assert kept == {f"{number:02}-unit": 5 for number in range(1, 7)}
