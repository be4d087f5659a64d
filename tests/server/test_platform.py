"""Login by way of a learning platform, by the messages of LTI 1.3, signed by a platform of ours.

The steps and claims are those of 1EdTech's "LTI Core Specification 1.3" and "Security Framework
1.0", 5.1: initiation, authentication request, authentication response.
"""

import json
import os
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Iterator, Mapping
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, ClassVar, NamedTuple

import jwt
import pytest
from cryptography.hazmat.primitives.asymmetric import rsa
from fuelmarks.server.class_server import ClassServer, write_server
from fuelmarks.server.launches import SCORE, launch_of
from jwt.algorithms import RSAAlgorithm

from tests.places import TOP
from tests.ports import own_ports

LTI = "https://purl.imsglobal.org/spec/lti/claim"
AGS = "https://purl.imsglobal.org/spec/lti-ags/claim/endpoint"
ISSUER, TOOL = "https://platform.example.invalid", "the-tool"
PEOPLE = {"instructors": ["teacher"], "trainees": {"t001": "T001", "t002": "T002"}}
KEY = rsa.generate_private_key(public_exponent=65537, key_size=2048)
OTHER_KEY = rsa.generate_private_key(public_exponent=65537, key_size=2048)
CONFIG = """
import os
from pathlib import Path

from fuelmarks.server.class_server import read_server
from fuelmarks.server.hub import configure

configure(c, read_server(Path(os.environ["FUELCIRCUITS_SERVER"])))
c.JupyterHub.proxy_class = "tests.server.no_proxy.NoProxy"
c.JupyterHub.services = []
c.JupyterHub.load_roles = []
"""


class Platform(BaseHTTPRequestHandler):
    """What a platform shows the world of itself: its public keys."""

    keys: ClassVar[dict[str, Any]] = {
        "keys": [{**json.loads(RSAAlgorithm.to_jwk(KEY.public_key())), "kid": "1", "use": "sig"}]
    }

    def do_GET(self) -> None:
        raw = json.dumps(self.keys).encode()
        self.send_response(200)
        self.send_header("Content-Type", "application/json")
        self.send_header("Content-Length", str(len(raw)))
        self.end_headers()
        self.wfile.write(raw)

    def log_message(self, *_: object) -> None:
        """Say nothing."""


class Stay(urllib.request.HTTPRedirectHandler):
    """Follows no redirection: each is looked at."""

    def redirect_request(self, *_: Any) -> None:
        return None


class Hub(NamedTuple):
    """Where a hub answers, and where it notes what the platform said of each."""

    address: str
    launches: Path


class Browser:
    """A browser between the platform and the hub."""

    def __init__(self, hub: str) -> None:
        self.hub, self.cookies = hub, dict[str, str]()
        self.opener = urllib.request.build_opener(urllib.request.ProxyHandler({}), Stay())

    def ask(self, path: str, form: Mapping[str, str] | None = None) -> tuple[int, str, str]:
        """Return status, where it leads, and the text."""
        sent = urllib.parse.urlencode(form).encode() if form is not None else None
        head = {"Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        try:
            answer = self.opener.open(
                urllib.request.Request(self.hub + path, sent, head), timeout=60
            )
        except urllib.error.HTTPError as error:
            answer = error
        with answer:
            for line in answer.headers.get_all("Set-Cookie") or ():
                name, _, value = line.split(";")[0].partition("=")
                self.cookies[name] = value
            return answer.status, answer.headers.get("Location", ""), answer.read().decode()

    def asked_to_sign(self) -> dict[str, str]:
        """Begin at the platform; return what the hub asks the platform to sign."""
        begun = {"iss": ISSUER, "login_hint": "7", "client_id": TOOL}
        begun["target_link_uri"] = f"{self.hub}/hub/home"
        status, leads, text = self.ask(f"/hub/lti13/oauth_login?{urllib.parse.urlencode(begun)}")
        assert status == 302, text
        assert leads.startswith(f"{ISSUER}/authorize?")
        return dict(urllib.parse.parse_qsl(urllib.parse.urlsplit(leads).query))

    def who(self) -> str:
        """Return who the hub takes this browser for, nobody if it asks to log in."""
        status, _, text = self.ask("/hub/home")
        return text.split('user: "')[1].split('"')[0] if status == 200 else ""


def claims(nonce: str, **others: object) -> dict[str, Any]:
    """Return what a platform says of somebody who comes by way of a link of its own."""
    now = int(time.time())
    return {
        "iss": ISSUER,
        "aud": TOOL,
        "sub": "t002",
        "exp": now + 60,
        "iat": now,
        "nonce": nonce,
        f"{LTI}/message_type": "LtiResourceLinkRequest",
        f"{LTI}/version": "1.3.0",
        f"{LTI}/deployment_id": "1",
        f"{LTI}/target_link_uri": "http://hub.example.invalid/hub/home",
        f"{LTI}/resource_link": {"id": "unit-02"},
        f"{LTI}/roles": ["http://purl.imsglobal.org/vocab/lis/v2/membership#Learner"],
        f"{LTI}/custom": {"id": "T001"},
        **others,
    }


def signed(told: Mapping[str, Any], key: Any = KEY, algorithm: str = "RS256") -> str:
    return jwt.encode(dict(told), key, algorithm=algorithm, headers={"kid": "1"})


@pytest.fixture(scope="module")
def hub(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Hub]:
    """A hub that lets in whom our platform vouches for."""
    folder = tmp_path_factory.mktemp("hub")
    keys = ThreadingHTTPServer(("127.0.0.1", 0), Platform)
    shown = threading.Thread(target=keys.serve_forever, daemon=True)
    shown.start()
    lti = {
        "issuer": ISSUER,
        "authorize_url": f"{ISSUER}/authorize",
        "jwks_endpoint": f"http://127.0.0.1:{keys.server_address[1]}/keys",
        "client_id": TOOL,
        "account": "custom_id",
    }
    server = ClassServer(folder, port=own_ports(), login="lti", lti=lti)
    write_server(server)
    (folder / "hub").mkdir()
    (folder / "platform").mkdir()
    (folder / "people.json").write_text(json.dumps(PEOPLE))
    (folder / "config.py").write_text(CONFIG)
    around = {**os.environ, "FUELCIRCUITS_SERVER": str(folder), "PYTHONPATH": str(TOP)}
    with (folder / "log").open("wb") as log:
        process = subprocess.Popen(
            [sys.executable, "-m", "jupyterhub", "-f", str(folder / "config.py")],
            cwd=folder / "hub",
            env=around,
            stdout=log,
            stderr=log,
        )
    address = f"http://127.0.0.1:{server.ports[1]}"
    try:
        until = time.monotonic() + 90
        while not _answers(address):
            assert process.poll() is None, (folder / "log").read_text()
            assert time.monotonic() < until
            time.sleep(0.1)
        yield Hub(address, server.platform)
    finally:
        process.terminate()
        process.wait(60)
        keys.shutdown()
        keys.server_close()
        shown.join()


def _answers(address: str) -> bool:
    try:
        return Browser(address).ask("/hub/health")[0] == 200
    except OSError:
        return False


def enter(browser: Browser, token: str, state: str) -> int:
    """Bring what the platform signed to the hub; return the status."""
    return browser.ask("/hub/lti13/oauth_callback", {"id_token": token, "state": state})[0]


def test_whom_the_platform_vouches_for_is_in_as_the_class_list_says(hub: Hub) -> None:
    browser = Browser(hub.address)
    asked = browser.asked_to_sign()
    assert asked["scope"] == "openid"
    assert enter(browser, signed(claims(asked["nonce"])), asked["state"]) == 302
    assert browser.who() == "t001"


def test_where_marks_go_is_noted_of_whom_is_let_in_and_of_nobody_else(hub: Hub) -> None:
    place = {"scope": [SCORE], "lineitem": "https://platform.example.invalid/columns/1"}
    more = {AGS: place, f"{LTI}/custom": {"id": "T002", "unit": "02-float-bowl"}}
    for key, status in ((OTHER_KEY, (400, 401, 403)), (KEY, (302,))):
        browser = Browser(hub.address)
        asked = browser.asked_to_sign()
        assert launch_of(hub.launches, "t002") is None
        token = signed(claims(asked["nonce"], **more), key)
        assert enter(browser, token, asked["state"]) in status
    launch = launch_of(hub.launches, "t002")
    assert launch is not None
    assert (launch.person, launch.scopes) == ("t002", (SCORE,))
    assert launch.units == {"02-float-bowl": place["lineitem"]}


REFUSED: dict[str, tuple[dict[str, Any], Any]] = {
    "another's signature": ({}, OTHER_KEY),
    "meant for another tool": ({"aud": "another"}, KEY),
    "from another platform": ({"iss": "https://other.example.invalid"}, KEY),
    "too old": ({"exp": 1_700_000_000, "iat": 1_699_999_000}, KEY),
    "signed for another visit": ({"nonce": "0" * 64}, KEY),
    "somebody of no list": ({f"{LTI}/custom": {"id": "T099"}}, KEY),
    "the system's own account": ({f"{LTI}/custom": {"id": "root"}}, KEY),
    "no name, and a number that is another's id": ({f"{LTI}/custom": {}}, KEY),
    "a name that is no text": ({f"{LTI}/custom": {"id": ["T001"]}}, KEY),
}


@pytest.mark.parametrize(("changed", "key"), REFUSED.values(), ids=REFUSED)
def test_a_message_that_is_not_right_lets_nobody_in(
    hub: Hub, changed: dict[str, Any], key: Any
) -> None:
    browser = Browser(hub.address)
    asked = browser.asked_to_sign()
    token = signed({**claims(asked["nonce"]), **changed}, key)
    assert enter(browser, token, asked["state"]) in (400, 401, 403)
    assert browser.who() == ""


def test_an_unsigned_message_lets_nobody_in(hub: Hub) -> None:
    browser = Browser(hub.address)
    asked = browser.asked_to_sign()
    token = signed(claims(asked["nonce"]), "", "none")
    assert enter(browser, token, asked["state"]) in (400, 401, 403)
    assert browser.who() == ""


def test_a_message_that_was_heard_opens_no_second_browser(hub: Hub) -> None:
    first, second = Browser(hub.address), Browser(hub.address)
    asked = first.asked_to_sign()
    token = signed(claims(asked["nonce"]))
    assert enter(first, token, asked["state"]) == 302
    assert enter(second, token, asked["state"]) in (400, 403)
    assert enter(second, token, second.asked_to_sign()["state"]) in (400, 403)
    assert second.who() == ""
