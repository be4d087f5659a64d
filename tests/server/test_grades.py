"""Marks on their way to a learning platform, by the messages of 1EdTech's standards.

The platform is ours: it checks signature, token, scope and kinds as "Security Framework 1.0", 4.1,
and "Assignment and Grade Services 2.0", 3.2 and 3.4, ask of one, and keeps what it was sent.
"""

import json
import os
import threading
import urllib.request
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, parse_qsl, urlsplit

import jwt
import pytest
from fuelmarks.classroom import own_exchange
from fuelmarks.classroom.sending import send_grades
from fuelmarks.course.course import CourseError
from fuelmarks.server.launches import LINE_ITEM, SCORE, launch_of, note_launch
from fuelmarks.server.own_key import ensure_key

from tests.server.counter import Counter, counter

AGS = "https://purl.imsglobal.org/spec/lti-ags/claim/endpoint"
CLAIM = "https://purl.imsglobal.org/spec/lti/claim"
UNIT, TOOL, TOKEN = "02-float-bowl", "the-tool", "the-platform's-token"
FULL = {"points": 9.5, "out_of": 13.0, "final": True}
PARTLY = {"points": 7.0, "out_of": 13.0, "final": False}


class Platform(ThreadingHTTPServer):
    """What a platform keeps: columns, scores, and where the tool shows its public keys."""

    keys = ""
    broken = False
    asked = 0

    def __init__(self) -> None:
        super().__init__(("127.0.0.1", 0), Answers)
        self.here = f"http://127.0.0.1:{self.server_address[1]}"
        self.columns: list[dict[str, Any]] = []
        self.scores: list[tuple[str, dict[str, Any]]] = []
        self.seen: set[str] = set()


class Answers(BaseHTTPRequestHandler):
    """The platform's side of each question."""

    server: Platform

    def do_POST(self) -> None:
        sent = self.rfile.read(int(self.headers["Content-Length"])).decode()
        path, kind = urlsplit(self.path).path, self.headers["Content-Type"]
        self.server.asked += 1
        if self.server.broken:
            self.answer(403, {"error": "closed for the holidays"})
        elif path == "/token":
            self.token(dict(parse_qsl(sent)))
        elif self.headers["Authorization"] != f"Bearer {TOKEN}":
            self.answer(401, {})
        elif path.endswith("/scores") and kind == "application/vnd.ims.lis.v1.score+json":
            self.server.scores.append((self.path, json.loads(sent)))
            self.answer(204, None)
        elif path == "/columns" and kind == "application/vnd.ims.lis.v2.lineitem+json":
            made = {**json.loads(sent), "id": f"{self.server.here}/columns/9?type=1"}
            self.server.columns.append(made)
            self.answer(201, made)
        else:
            self.answer(415, {})

    def do_GET(self) -> None:
        asked = parse_qs(urlsplit(self.path).query).get("resource_id", [""])[0]
        self.answer(200, [one for one in self.server.columns if one["resourceId"] == asked])

    def token(self, form: dict[str, str]) -> None:
        """Give a token to whoever signs as the tool does, once for each signature."""
        with urllib.request.urlopen(self.server.keys) as shown:
            (own,) = json.load(shown)["keys"]
        key, where = jwt.PyJWK(own).key, f"{self.server.here}/token"
        told = jwt.decode(form["client_assertion"], key, ["RS256"], audience=where)
        new = told["jti"] not in self.server.seen
        self.server.seen.add(told["jti"])
        fit = (told["iss"], told["sub"], form["grant_type"]) == (TOOL, TOOL, "client_credentials")
        assert jwt.get_unverified_header(form["client_assertion"])["kid"] == own["kid"]
        scopes = form["scope"].split()
        self.answer(200 if fit and new and SCORE in scopes else 400, {"access_token": TOKEN})

    def answer(self, status: int, told: Any) -> None:
        raw = b"" if told is None else json.dumps(told).encode()
        self.send_response(status)
        self.send_header("Content-Length", str(len(raw)))
        self.end_headers()
        self.wfile.write(raw)

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def platform() -> Iterator[Platform]:
    with Platform() as found:
        thread = threading.Thread(target=found.serve_forever, daemon=True)
        thread.start()
        yield found
        found.shutdown()
        thread.join()


@pytest.fixture(scope="module")
def desk(platform: Platform, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Counter]:
    """An exchange to which t001 has come by way of the platform, and t002 has not."""
    folder = tmp_path_factory.mktemp("counter")
    (folder / "platform").mkdir()
    ensure_key(folder / "platform" / "key.pem", os.getegid())
    told = {"client_id": TOOL, "token_url": f"{platform.here}/token"}
    around = {
        "FUELCIRCUITS_PLATFORM": str(folder / "platform"),
        "FUELCIRCUITS_LTI": json.dumps(told),
    }
    with pytest.MonkeyPatch.context() as patch:
        for name, value in around.items():
            patch.setenv(name, value)
        with counter(folder) as found:
            platform.keys = f"{found.address}keys"
            yield found


@pytest.fixture(autouse=True)
def as_teacher(desk: Counter, platform: Platform, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Begin anew, as an instructor; return where launches are noted."""
    monkeypatch.setenv(own_exchange.ADDRESS, desk.address)
    monkeypatch.setenv(own_exchange.TOKEN, "token-of-teacher")
    folder = Path(desk.around["FUELCIRCUITS_PLATFORM"])
    for path in (folder / "t001.json", desk.store.root / "grades" / f"{UNIT}.json"):
        path.unlink(missing_ok=True)
    platform.columns, platform.scores = [], []
    platform.asked, platform.broken = 0, False
    return folder


def launched(
    folder: Path, platform: Platform, *scopes: str, unit: str = "", **more: str
) -> dict[str, Any]:
    """Note that t001 has come, known to the platform as person 7."""
    endpoint = {"scope": list(scopes), "lineitems": f"{platform.here}/columns", **more}
    custom = {"id": "T001", **({"unit": unit} if unit else {})}
    claims = {"sub": "7", f"{CLAIM}/custom": custom, AGS: endpoint}
    note_launch(folder, "t001", claims)
    return claims


def test_a_mark_arrives_in_a_column_of_the_units_name_and_once(
    as_teacher: Path, platform: Platform
) -> None:
    launched(as_teacher, platform, SCORE, LINE_ITEM)
    told = send_grades(UNIT, {"t001": FULL, "t002": FULL})
    assert told["t001"] == "sent: 9.5 of 13"
    assert told["t002"].startswith("not sent: has not come by way of the platform")
    (column,) = platform.columns
    assert (column["label"], column["scoreMaximum"]) == (UNIT, 13.0)
    ((path, score),) = platform.scores
    assert path == "/columns/9/scores?type=1"
    assert (score["userId"], score["scoreGiven"], score["scoreMaximum"]) == ("7", 9.5, 13.0)
    assert (score["activityProgress"], score["gradingProgress"]) == ("Completed", "FullyGraded")
    assert send_grades(UNIT, {"t001": FULL})["t001"] == "sent before: 9.5 of 13"
    assert len(platform.scores) == 1


def test_a_mark_that_is_another_by_now_goes_again_and_says_so(
    as_teacher: Path, platform: Platform
) -> None:
    launched(as_teacher, platform, SCORE, LINE_ITEM)
    first = send_grades(UNIT, {"t001": PARTLY})
    assert first["t001"] == "sent: 7 of 13, something waits for a hand"
    assert send_grades(UNIT, {"t001": FULL})["t001"] == "sent: 9.5 of 13, in the place of 7"
    states = [score["gradingProgress"] for _, score in platform.scores]
    assert states == ["PendingManual", "FullyGraded"]
    assert platform.scores[0][1]["timestamp"] < platform.scores[1][1]["timestamp"]
    assert len(platform.columns) == 1


def test_a_unit_that_was_linked_goes_into_the_column_of_its_link(
    as_teacher: Path, platform: Platform
) -> None:
    linked = {"lineitem": f"{platform.here}/linked/3"}
    launched(as_teacher, platform, SCORE, unit=UNIT, **linked)
    launched(as_teacher, platform, SCORE, unit="05-off-idle", lineitem=f"{platform.here}/linked/5")
    assert send_grades(UNIT, {"t001": FULL})["t001"] == "sent: 9.5 of 13"
    assert [path for path, _ in platform.scores] == ["/linked/3/scores"]


def test_without_a_column_or_the_right_to_make_one_it_says_what_is_missing(
    as_teacher: Path, platform: Platform
) -> None:
    launched(as_teacher, platform, SCORE)
    with pytest.raises(CourseError, match=f"custom parameter unit={UNIT}"):
        send_grades(UNIT, {"t001": FULL})


def test_what_the_platform_refuses_is_told_in_its_words_and_counts_as_not_sent(
    as_teacher: Path, platform: Platform
) -> None:
    launched(as_teacher, platform, SCORE, LINE_ITEM)
    platform.broken = True
    with pytest.raises(CourseError, match=r"status 403: .*closed for the holidays"):
        send_grades(UNIT, {"t001": FULL})
    assert platform.asked == 1
    platform.broken = False
    assert send_grades(UNIT, {"t001": FULL})["t001"] == "sent: 9.5 of 13"


@pytest.mark.parametrize("scopes", [(), (LINE_ITEM,)])
def test_a_platform_that_takes_no_scores_gets_none(
    as_teacher: Path, platform: Platform, scopes: tuple[str, ...]
) -> None:
    launched(as_teacher, platform, *scopes)
    assert send_grades(UNIT, {"t001": FULL})["t001"].startswith("not sent")
    assert platform.scores == []


def test_a_login_without_a_place_for_marks_forgets_none(
    as_teacher: Path, platform: Platform
) -> None:
    claims = launched(as_teacher, platform, SCORE, LINE_ITEM)
    before = launch_of(as_teacher, "t001")
    del claims[AGS]
    note_launch(as_teacher, "t001", claims)
    assert launch_of(as_teacher, "t001") == before


def test_an_address_that_is_none_is_not_kept(as_teacher: Path, platform: Platform) -> None:
    launched(as_teacher, platform, SCORE, unit="../../etc", lineitem="file:///etc/passwd")
    launch = launch_of(as_teacher, "t001")
    assert launch is not None
    assert launch.units == {}


@pytest.mark.parametrize("token", ["token-of-t001", "token-of-stranger", "token-of-a-service"])
def test_only_instructors_send_marks(desk: Counter, platform: Platform, token: str) -> None:
    asked = {"marks": {"t001": {**FULL, "points": 13}}}
    assert desk.ask("PUT", f"grades/{UNIT}", token, asked)[0] in (401, 403)
    assert platform.scores == []


@pytest.mark.parametrize("told", [{}, {"marks": 3}, {"marks": {"t001": {"points": "many"}}}])
def test_marks_that_are_none_are_refused(desk: Counter, told: object) -> None:
    assert desk.ask("PUT", f"grades/{UNIT}", "token-of-teacher", told)[0] == 400


def test_a_unit_of_another_kind_is_refused(desk: Counter) -> None:
    asked = {"marks": {"t001": FULL}}
    assert desk.ask("PUT", "grades/..%2Fother", "token-of-teacher", asked)[0] in (400, 404)


def test_the_private_half_of_the_key_is_shown_to_nobody(desk: Counter) -> None:
    with urllib.request.urlopen(f"{desk.address}keys") as shown:
        (key,) = json.load(shown)["keys"]
    assert key.keys() == {"kty", "key_ops", "n", "e", "kid", "use", "alg"}
