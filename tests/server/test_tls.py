"""A certificate of the college's: the real proxy shows it, and nothing goes in clear.

The certificate is signed by an authority made here (X.509, RFC 5280), which the browser of the test
is told to trust, and no other.
"""

import ipaddress
import json
import os
import ssl
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from http.client import HTTPException
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID
from fuelmarks.server.class_server import ClassServer, write_server
from fuelmarks.server.environments import ensure_proxy

from tests.places import TOP
from tests.ports import own_ports

CONFIG = """
import os
from pathlib import Path

from fuelmarks.server.class_server import read_server
from fuelmarks.server.hub import configure

configure(c, read_server(Path(os.environ["FUELCIRCUITS_SERVER"])))
c.JupyterHub.services = []
c.JupyterHub.load_roles = []
"""


def papers(folder: Path) -> tuple[Path, Path, Path]:
    """Return an authority, a certificate that it signed for this computer, and its key."""
    authority, own = (
        ec.generate_private_key(ec.SECP256R1()),
        ec.generate_private_key(ec.SECP256R1()),
    )
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "An authority of the test's")])
    now = datetime.now(UTC)

    def begun(subject: x509.Name, key: ec.EllipticCurvePrivateKey) -> x509.CertificateBuilder:
        made = x509.CertificateBuilder().subject_name(subject).issuer_name(name)
        made = made.public_key(key.public_key()).serial_number(x509.random_serial_number())
        return made.not_valid_before(now - timedelta(days=1)).not_valid_after(
            now + timedelta(days=1)
        )

    ca = begun(name, authority).add_extension(x509.BasicConstraints(True, 0), critical=True)
    usual = x509.SubjectAlternativeName([x509.IPAddress(ipaddress.ip_address("127.0.0.1"))])
    college = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "college.example.invalid")])
    certificate = begun(college, own).add_extension(usual, critical=False)
    found = folder / "ca.pem", folder / "certificate.pem", folder / "key.pem"
    for path, one in zip(found, (ca, certificate), strict=False):
        signed = one.sign(authority, hashes.SHA256())
        path.write_bytes(signed.public_bytes(serialization.Encoding.PEM))
    found[2].write_bytes(
        own.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.NoEncryption(),
        )
    )
    return found


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[ClassServer, Path]]:
    """A hub behind its own proxy with a certificate, and the authority."""
    folder = tmp_path_factory.mktemp("tls")
    authority, certificate, key = papers(folder)
    told = {"certificate": str(certificate), "certificate_key": str(key)}
    server = ClassServer(folder, port=own_ports(), **told)  # type: ignore[arg-type]
    write_server(server)
    ensure_proxy(server)
    (folder / "hub").mkdir()
    (folder / "people.json").write_text(json.dumps({"instructors": ["teacher"], "trainees": {}}))
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
    try:
        until = time.monotonic() + 120
        while not opens(f"{server.front}/hub/health", authority):
            assert process.poll() is None, (folder / "log").read_text()
            assert time.monotonic() < until
            time.sleep(0.2)
        yield server, authority
    finally:
        process.terminate()
        process.wait(60)


def opens(address: str, authority: Path | None) -> bool:
    """Return whether `address` opens for a browser that trusts `authority` alone."""
    context = ssl.create_default_context(cafile=str(authority) if authority else None)
    try:
        with urllib.request.urlopen(address, timeout=60, context=context) as answer:
            return int(answer.status) == 200
    except (urllib.error.URLError, HTTPException, OSError):
        return False


def test_the_certificate_is_shown_to_whoever_trusts_its_authority(
    served: tuple[ClassServer, Path],
) -> None:
    server, authority = served
    assert server.front.startswith("https://")
    assert opens(f"{server.front}/hub/login", authority)


def test_a_browser_that_trusts_others_turns_away(
    served: tuple[ClassServer, Path], tmp_path: Path
) -> None:
    other, _, _ = papers(tmp_path)
    assert not opens(f"{served[0].front}/hub/login", other)


def test_nothing_is_served_in_clear_and_cookies_stay_out_of_it(
    served: tuple[ClassServer, Path],
) -> None:
    server, authority = served
    assert not opens(server.front.replace("https", "http") + "/hub/login", None)
    context = ssl.create_default_context(cafile=str(authority))
    with urllib.request.urlopen(f"{server.front}/hub/login", timeout=60, context=context) as got:
        cookies = got.headers.get_all("Set-Cookie")
    assert cookies
    assert all("secure" in cookie.lower() for cookie in cookies)
