"""How JupyterHub is configured: who may come in, which server everybody gets, the exchange."""

import json
import os
import pwd
from typing import Any

from fuelmarks.course.error import CourseError
from fuelmarks.server.accounts import EXCHANGE, STAFF, TRAINEES
from fuelmarks.server.class_server import ClassServer

__all__ = ["SERVICE", "configure"]

SERVICE = "exchange"
HEARD = ["list:users", "read:servers", "read:users:activity"]
"""What the exchange may ask of the hub, for the instructor's page."""
AT_ONCE = 200
"""Servers that may start at the same time: a whole class that logs in at once. Whoever came beyond
it would be sent away with an error, and to wait for the cores is better than that."""
ONE_THREAD = {"OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"}


def configure(c: Any, server: ClassServer) -> None:
    """Fill the hub's configuration `c`."""
    _doors(c, server)
    _login(c, server)
    _servers(c, server)
    _exchange(c, server)


def _doors(c: Any, server: ClassServer) -> None:
    """Say where the hub and its proxy listen, and what they keep."""
    _, hub, control, _ = server.ports
    kept = server.root / "hub"
    c.JupyterHub.bind_url = server.front
    c.JupyterHub.hub_bind_url = f"http://127.0.0.1:{hub}"
    c.JupyterHub.ssl_cert, c.JupyterHub.ssl_key = server.certificate, server.certificate_key
    if server.certificate or server.behind:
        c.JupyterHub.tornado_settings = {"cookie_options": {"secure": True}}
    c.JupyterHub.db_url = f"sqlite:///{kept / 'hub.sqlite'}"
    c.JupyterHub.cookie_secret_file = str(kept / "cookie_secret")
    c.ConfigurableHTTPProxy.api_url = f"http://127.0.0.1:{control}"
    c.ConfigurableHTTPProxy.pid_file = str(kept / "proxy.pid")
    program = server.root / "proxy/node_modules/configurable-http-proxy/bin/configurable-http-proxy"
    c.ConfigurableHTTPProxy.command = ["node", str(program)]
    c.JupyterHub.concurrent_spawn_limit = AT_ONCE


def _login(c: Any, server: ClassServer) -> None:
    """Say who may come in: accounts of ours, by password or by way of a learning platform."""
    if server.login == "lti":
        lti = server.lti
        c.JupyterHub.authenticator_class = "fuelmarks.server.platform.PlatformAuthenticator"
        c.LTI13Authenticator.issuer = lti["issuer"]
        c.LTI13Authenticator.authorize_url = lti["authorize_url"]
        c.LTI13Authenticator.jwks_endpoint = lti["jwks_endpoint"]
        c.LTI13Authenticator.client_id = [lti["client_id"]]
        c.LTI13Authenticator.username_key = lti["account"]
        c.PlatformAuthenticator.people = str(server.root / "people.json")
        c.PlatformAuthenticator.launches = str(server.platform)
        c.PlatformAuthenticator.allow_all = True  # whom the list does not know has no name here
        return
    c.JupyterHub.authenticator_class = "pam"
    c.PAMAuthenticator.open_sessions = False
    c.LocalAuthenticator.allowed_groups = {TRAINEES, STAFF}


def _servers(c: Any, server: ClassServer) -> None:
    """Say which server everybody gets, and with what around it."""
    c.JupyterHub.spawner_class = "fuelmarks.server.spawner.ForkingSpawner"
    c.Spawner.args = ["--ServerApp.ip=127.0.0.1"]
    c.Spawner.notebook_dir = "~"
    c.Spawner.default_url = "/lab"
    c.Spawner.http_timeout = c.Spawner.start_timeout = 120
    c.Spawner.env_keep = ["LANG", "LC_ALL", "TZ"]

    def begin(spawner: Any) -> None:
        own = "staff" if spawner.user.name in server.instructors else "trainees"
        folder = server.root / own / "bin"
        spawner.cmd = [str(folder / "jupyterhub-singleuser")]
        forked = server.forks and own == "trainees"
        spawner.template = str(server.template) if forked else ""
        spawner.environment = {
            "PATH": f"{folder}:/usr/local/bin:/usr/bin:/bin",
            "FUELCIRCUITS_EXCHANGE": server.exchange,
            "JUPYTER_RUNTIME_DIR": f"{pwd.getpwnam(spawner.user.name).pw_dir}/.run",
            **ONE_THREAD,
        }

    c.Spawner.pre_spawn_hook = begin


def _template(server: ClassServer) -> dict[str, Any]:
    """Return the trainees' template: run as root, and with nothing of the hub's environment."""
    around = {"PATH": "/usr/bin:/bin", "LANG": "C.UTF-8", "HOME": "/nonexistent", **ONE_THREAD}
    return {
        "name": "template",
        "command": [
            *("env", "-i", *(f"{name}={value}" for name, value in around.items())),
            *(server.program("trainees", "python"), "-I", "-m", "own_forks.template"),
            str(server.template),
        ],
        "user": "root",
        "cwd": "/",
    }


def _exchange(c: Any, server: ClassServer) -> None:
    """Have the hub run the exchange as its own user, and the status page with it."""
    exchange = {
        "name": SERVICE,
        "url": server.exchange.removesuffix(f"/services/{SERVICE}/"),
        "command": [server.program("staff", "python"), "-m", "fuelmarks.server.exchange.service"],
        "user": EXCHANGE,
        "cwd": "/",
        "oauth_no_confirm": True,
        "environment": {
            "FUELCIRCUITS_EXCHANGE_ROOT": str(server.root / "exchange"),
            "FUELCIRCUITS_PEOPLE": str(server.root / "people.json"),
            "FUELCIRCUITS_PLATFORM": str(server.platform),
            "FUELCIRCUITS_LTI": json.dumps(dict(server.lti)),
        },
    }
    c.JupyterHub.services = [exchange, *([_template(server)] if server.forks else [])]
    c.JupyterHub.load_roles = [
        {"name": "exchange", "services": [SERVICE], "scopes": HEARD},
        {
            "name": "instructors",
            "users": list(server.instructors),
            "scopes": [f"access:services!service={SERVICE}"],
        },
    ]


def only_root() -> None:
    """Raise `CourseError` if whoever runs this is not root."""
    if os.geteuid() != 0:
        raise CourseError("a class server must be set up by root, for it makes accounts; use sudo")
