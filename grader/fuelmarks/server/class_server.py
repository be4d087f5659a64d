"""A class server: where all of it lies, and what whoever set it up has said in server.toml.

server.toml                what is said here; only root reads it, for it may hold secrets
trainees/ staff/           the environments: `fuelcircuits` alone, and all of it
proxy/                     the hub's proxy
hub/                       the hub's database, secrets, log and process
exchange/                  what is handed out and in, of a user of its own
people.json                whose account is whose
platform/                  with LTI: our key, and who came from where
passwords.csv              first passwords, for the instructor to give out and delete
"""

import tomllib
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields
from pathlib import Path
from typing import Any

from fuelmarks.course.error import CourseError
from fuelmarks.course.whole_file import put_whole

__all__ = ["ClassServer", "ServerError", "read_server", "write_server"]

FILE = "server.toml"
LOOPBACK = ("127.0.0.1", "::1", "localhost")
LOGINS = ("pam", "lti")
LTI = ("issuer", "authorize_url", "jwks_endpoint", "client_id", "account")
HEAD = "# What the class server is told; `fuelmarks server setup` keeps what is changed here.\n"


class ServerError(CourseError):
    """The class server cannot be had as it was asked for; the message says what to do."""


@dataclass(frozen=True)
class ClassServer:
    """The folder of a class server and what it was told.

    `ports` are four in a row from `port`: the one that people open, and three that only this
    computer sees. `behind` says that a proxy before it does TLS. `forks` says that servers and
    kernels of trainees are forked from a process that has imported everything.
    """

    root: Path
    course: str = ""
    instructors: tuple[str, ...] = ("teacher",)
    address: str = "127.0.0.1"
    port: int = 8000
    certificate: str = ""
    certificate_key: str = ""
    behind: bool = False
    login: str = "pam"
    lti: Mapping[str, str] = field(default_factory=dict)
    idle_minutes: int = 90
    forks: bool = True

    def __post_init__(self) -> None:
        """Check it all; raise `ServerError` that names file, rule and value."""
        where = self.root / FILE
        if bool(self.certificate) != bool(self.certificate_key):
            raise ServerError(f"{where}: certificate and certificate_key must go together, got one")
        if self.address not in LOOPBACK and not (self.certificate or self.behind):
            rule = (
                "address must be 127.0.0.1 where there is neither a certificate nor behind = true"
            )
            raise ServerError(f"{where}: {rule}, or passwords go in clear, got {self.address!r}")
        if not 0 < self.port < 65533:
            raise ServerError(f"{where}: port must be between 1 and 65532, got {self.port}")
        if self.login not in LOGINS:
            rule = f"login must be one of {', '.join(LOGINS)}"
            raise ServerError(f"{where}: {rule}, got {self.login!r}")
        if self.login == "lti" and (missing := [one for one in LTI if not self.lti.get(one)]):
            raise ServerError(f"{where}: lti must say {', '.join(LTI)}, got no {missing[0]}")

    @property
    def ports(self) -> tuple[int, int, int, int]:
        """Return the ports of the front, the hub, the proxy's control, and the exchange."""
        return self.port, self.port + 1, self.port + 2, self.port + 3

    @property
    def front(self) -> str:
        """Return the address that people open, as this computer knows it."""
        return f"{'https' if self.certificate else 'http'}://{self.address}:{self.port}"

    @property
    def exchange(self) -> str:
        """Return the address of the exchange, which only this computer sees."""
        return f"http://127.0.0.1:{self.ports[3]}/services/exchange/"

    @property
    def template(self) -> Path:
        """Return the place at which the trainees' template answers, which only root reaches."""
        return self.root / "hub" / "template.sock"

    @property
    def platform(self) -> Path:
        """Return the folder of our key and of what the learning platform said of each."""
        return self.root / "platform"

    def program(self, environment: str, name: str) -> str:
        """Return the path of a program in one of the environments."""
        return str(self.root / environment / "bin" / name)


def read_server(root: Path) -> ClassServer:
    """Return the class server in `root`; raise `ServerError` if none was set up there."""
    path = root / FILE
    try:
        held = tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError as error:
        rule = f"{root} must hold a class server"
        raise ServerError(f"{rule}, got none; `fuelmarks server setup` makes one") from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise ServerError(f"{path} must be TOML, got: {error}") from error
    return server_of(root, held)


def server_of(root: Path, held: Mapping[str, Any]) -> ClassServer:
    """Return the class server that `held` tells of; every name and kind is checked."""
    kinds = {one.name: one.type for one in fields(ClassServer) if one.name != "root"}
    for name, value in held.items():
        if name not in kinds:
            rule = f"name must be one of {', '.join(kinds)}"
            raise ServerError(f"{root / FILE}: {rule}, got {name!r}")
        usual = getattr(ClassServer(root), name)
        if not isinstance(value, list if isinstance(usual, tuple) else type(usual)):
            rule = f"{name} must be like {_toml(usual)}"
            raise ServerError(f"{root / FILE}: {rule}, got {value!r}")
    told: dict[str, Any] = {
        name: tuple(one) if isinstance(one, list) else one for name, one in held.items()
    }
    return ClassServer(root, **told)


def write_server(server: ClassServer) -> None:
    """Write server.toml; only root may read it."""
    held = {name: value for name, value in asdict(server).items() if name != "root"}
    tables = {name: value for name, value in held.items() if isinstance(value, Mapping)}
    lines = [f"{name} = {_toml(value)}" for name, value in held.items() if name not in tables]
    for name, table in tables.items():
        if table:
            lines += ["", f"[{name}]", *(f"{key} = {_toml(one)}" for key, one in table.items())]
    put_whole(server.root / FILE, (HEAD + "\n".join(lines) + "\n").encode(), 0o600)


def _toml(value: object) -> str:
    """Return a value as TOML writes it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        escaped = value.replace("\\", "\\\\").replace('"', '\\"')
        return f'"{escaped}"'
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(_toml, value))}]"
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{key} = {_toml(one)}' for key, one in value.items())} }}"
    return str(value)
