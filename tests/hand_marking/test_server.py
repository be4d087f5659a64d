"""The page for marking by hand: who may open it, what it enters, and what it refuses."""

import http.client
import json
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from fuelmarks.commands.cli import main
from fuelmarks.course.at_work import at_work
from fuelmarks.course.course import Course, CourseError
from fuelmarks.gradebook.standing import standings
from fuelmarks.hand_marking.question import question_of
from fuelmarks.hand_marking.server import HandMarking
from fuelmarks.runner import Runner
from nbgrader.api import Gradebook

from tests.small_unit import UNIT
from tests.written_class import QUESTION, RUBRIC, answer, mark, written_class

ATTACK = "**Bold** words. <script>hit()</script> ![x](attachment:a.webp)"
NAME = f"90-{QUESTION}"


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory, runner: Runner) -> Course:
    course = written_class(tmp_path_factory.mktemp("course"), [ATTACK, "Short.", ""])
    mark(course, runner)
    with (course.root / "class.csv").open("a") as file:
        file.write("t004,Eve,Late,\n")
    return course


@pytest.fixture(scope="module")
def server(course: Course) -> Iterator[HandMarking]:
    with HandMarking(course, UNIT) as made:
        thread = threading.Thread(target=made.serve_forever, daemon=True)
        thread.start()
        yield made
        made.shutdown()


def asked(
    server: HandMarking, path: str, method: str = "GET", body: Any = None, **headers: str
) -> tuple[int, str, http.client.HTTPMessage]:
    """Return status, text and headers of an answer; ours are those of a page with the cookie."""
    ours = {"Cookie": f"{server.cookie}={server.token}", "Origin": server.origin}
    line = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=60)
    sent = body if isinstance(body, str | None) else json.dumps(body)
    line.request(method, path, sent, {**ours, **headers})
    answer = line.getresponse()
    text = answer.read().decode()
    line.close()
    return answer.status, text, answer.headers


def ticks(server: HandMarking, *ticked: bool, **changes: Any) -> dict[str, Any]:
    digest = standings(server.course, UNIT, NAME)["t001"].digest
    made = {"trainee": "t001", "digest": digest, "ticks": list(ticked), "comment": " Good. "}
    return {**made, **changes}


def test_the_token_opens_the_page_and_leaves_the_address(server: HandMarking) -> None:
    status, _, headers = asked(server, f"/{QUESTION}?token={server.token}", Cookie="")
    assert (status, headers["Location"]) == (303, f"/{QUESTION}")
    assert headers["Set-Cookie"].endswith("; HttpOnly; SameSite=Strict; Path=/")
    assert asked(server, f"/{QUESTION}", Cookie=headers["Set-Cookie"].split(";")[0])[0] == 200


@pytest.mark.parametrize(
    ("path", "headers", "status"),
    [
        (f"/{QUESTION}", {"Cookie": ""}, 403),
        (f"/{QUESTION}?token=guess", {"Cookie": ""}, 403),
        (f"/{QUESTION}?token=ü", {"Cookie": "\x01=;;"}, 403),
        ("/hand.js", {"Cookie": ""}, 403),
        (f"/{QUESTION}", {"Host": "evil.example:80"}, 421),
        ("/no-such-question", {}, 404),
        ("/../../etc/passwd", {}, 404),
    ],
)
def test_nobody_else_is_let_in(
    server: HandMarking, path: str, headers: dict[str, str], status: int
) -> None:
    assert asked(server, path.replace("ü", "%FC"), **headers)[0] == status


def test_the_list_says_how_many_wait(server: HandMarking) -> None:
    assert "Say it</a>: 3 answers" in asked(server, "/")[1]


def test_the_page_holds_answers_rubric_and_who_is_missing(server: HandMarking) -> None:
    status, text, headers = asked(server, f"/{QUESTION}")
    assert status == 200
    assert "script-src 'self'" in headers["Content-Security-Policy"]
    assert "<strong>Bold</strong> words. &lt;script&gt;" in text
    assert "[picture not shown]" in text
    assert [words for words in RUBRIC if text.count(words) != 3] == []
    assert "No answer to mark from Eve Late." in text
    assert "Nothing was written." in text
    assert "MARK SCHEME" not in text


def test_ticks_become_points_and_stay_with_the_answer(server: HandMarking, course: Course) -> None:
    status, text, _ = asked(server, f"/{QUESTION}", "POST", ticks(server, True, True, False))
    assert (status, json.loads(text)) == (200, {"points": 3.0})
    with Gradebook(course.gradebook) as book:
        grade = book.find_grade(NAME, UNIT, UNIT, "t001")
        assert (grade.manual_score, grade.needs_manual_grade) == (3.0, False)
        assert book.find_comment(NAME, UNIT, UNIT, "t001").manual_comment == "Good."
    given = standings(course, UNIT, NAME)["t001"].given
    assert given is not None
    assert [(one.words, one.ticked) for one in given.ticks] == list(
        zip(RUBRIC, (True, True, False), strict=True)
    )
    page = asked(server, f"/{QUESTION}")[1]
    assert page.count('type="checkbox" checked') == 2
    assert "Good.</textarea>" in page


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"trainee": "t999"}, "must have an answer here"),
        ({"digest": "0" * 64}, "another attempt since"),
        ({"ticks": [True]}, "ticks must be 3"),
        ({"ticks": [1, 1, 1]}, "ticks must be 3"),
        ({"ticks": "yes"}, "ticks of a mark must be a list"),
        ({"comment": "x" * 6000}, "comment of a mark must be"),
        ({"more": 1}, "a mark must have"),
    ],
)
def test_what_is_no_mark_is_refused_in_words(
    server: HandMarking, changes: dict[str, Any], words: str
) -> None:
    before = standings(server.course, UNIT, NAME)
    sent = ticks(server, True, True, True, **changes)
    status, text, _ = asked(server, f"/{QUESTION}", "POST", sent)
    assert status == 409
    assert words in json.loads(text)["error"]
    assert standings(server.course, UNIT, NAME) == before


@pytest.mark.parametrize(
    ("headers", "body", "status"),
    [
        ({"Origin": "https://evil.example"}, "{}", 403),
        ({"Cookie": ""}, "{}", 403),
        ({}, "no json", 409),
        ({}, "[" * 9000, 409),
        ({"Content-Length": "999999"}, "{}", 409),
        ({"Content-Length": "-1"}, "{}", 409),
        ({"Content-Length": "many"}, "{}", 409),
    ],
)
def test_a_request_from_elsewhere_or_of_another_form_enters_nothing(
    server: HandMarking, headers: dict[str, str], body: str, status: int
) -> None:
    assert asked(server, f"/{QUESTION}", "POST", body, **headers)[0] == status


def test_while_another_command_is_at_work_it_says_so(server: HandMarking, course: Course) -> None:
    with at_work(course.root, "marking"):
        status, text, _ = asked(server, f"/{QUESTION}", "POST", ticks(server, True, True, True))
    assert status == 409
    assert "one command at a time" in json.loads(text)["error"]


def test_another_text_takes_the_ticks_back(
    server: HandMarking, course: Course, runner: Runner
) -> None:
    assert asked(server, f"/{QUESTION}", "POST", ticks(server, True, True, True))[0] == 200
    answer(course, "t001", "Something else.")
    mark(course, runner)
    standing = standings(course, UNIT, NAME)["t001"]
    assert (standing.points, standing.given, standing.comment) == (None, None, "")


def test_points_changed_elsewhere_are_not_said_to_be_ticked(
    server: HandMarking, course: Course
) -> None:
    sent = ticks(server, True, True, True, trainee="t002", digest="")
    assert asked(server, f"/{QUESTION}", "POST", sent)[0] == 200
    with Gradebook(course.gradebook) as book:
        book.find_grade(NAME, UNIT, UNIT, "t002").manual_score = 0.5
        book.db.commit()
    assert standings(course, UNIT, NAME)["t002"].given is None
    assert "0.5 of 4, not by ticks here" in asked(server, f"/{QUESTION}")[1]


def test_a_question_marked_by_machine_is_refused(course: Course) -> None:
    with pytest.raises(CourseError, match="must be one of say-it, got 'seat-area'"):
        question_of(course, UNIT, "seat-area")


def test_a_unit_that_is_not_built_is_said_to_be(course: Course, tmp_path: Path) -> None:
    (tmp_path / "units").mkdir()
    with pytest.raises(CourseError, match="unit must be one of"):
        HandMarking(Course.at(tmp_path), UNIT)


def test_the_command_prints_where_to_go_and_serves_it(course: Course) -> None:
    words = ["hand-mark", UNIT, QUESTION, "--course", str(course.root)]
    shelf = "from tests.small_unit import shelve; shelve()"
    run = f"{shelf}; from fuelmarks.commands.cli import main; main({words!r})"
    with subprocess.Popen([sys.executable, "-uc", run], stdout=subprocess.PIPE, text=True) as made:
        assert made.stdout is not None
        address = made.stdout.readline().removeprefix("Open ").strip()
        place = urlsplit(address)
        line = http.client.HTTPConnection(place.netloc, timeout=60)
        line.request("GET", f"{place.path}?{place.query}")
        status = line.getresponse().status
        line.close()
        made.terminate()
    assert (place.hostname, place.path, status) == ("127.0.0.1", f"/{QUESTION}", 303)


@pytest.mark.parametrize("question", ["seat-area", "nonsense"])
def test_the_command_names_the_questions_there_are(
    course: Course, question: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["hand-mark", UNIT, question, "--course", str(course.root)]) == 2
    assert f"must be one of say-it, got {question!r}" in capsys.readouterr().err
