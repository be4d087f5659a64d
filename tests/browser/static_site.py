"""A folder on a plain web server of this machine, that can be stopped and started again."""

from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

from tests.ports import own_ports

__all__ = ["StaticSite"]


class Quiet(SimpleHTTPRequestHandler):
    """Serves files and logs nothing."""

    def log_message(self, *_told: Any) -> None:
        pass


class StaticSite:
    """A folder that is served as long as the server runs."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.port = folder, own_ports()
        self.start()

    def start(self) -> None:
        """Serve the folder, at the same port as before."""
        handler = partial(Quiet, directory=str(self.folder))
        self.server = ThreadingHTTPServer(("127.0.0.1", self.port), handler)
        Thread(target=self.server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        """Serve no more."""
        self.server.shutdown()
        self.server.server_close()

    def at(self, path: str) -> str:
        """Return the address of a file."""
        return f"http://127.0.0.1:{self.port}/{path}"
