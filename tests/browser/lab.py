"""A JupyterLab of our own to test in: empty settings, a free port, nothing but this machine."""

import json
import os
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from fuelmarks.course.notebook import new_cell, text_of
from fuelmarks.course.notebook import notebook as new_notebook
from playwright.sync_api import Page

from tests.ports import own_ports

__all__ = ["Lab", "notebook", "serve"]

QUIET = {
    "@jupyterlab/apputils-extension:notification": {"checkForUpdates": False, "fetchNews": "false"},
    "@jupyterlab/docmanager-extension:plugin": {"autosave": False},
    "@jupyterlab/notebook-extension:tracker": {"windowingMode": "none"},
}
LOOK = 100
"""Milliseconds between two looks; to look at every frame keeps the browser busy for nothing."""
RUN_ALL = "window.jupyterapp.commands.execute('notebook:run-all-cells')"
CONNECTED = """() => {
    const panel = window.jupyterapp?.shell.currentWidget;
    const kernel = panel?.sessionContext?.session?.kernel;
    return kernel?.connectionStatus === 'connected' && kernel.status === 'idle';
}"""
ERRORS = """() => [...window.jupyterapp.shell.currentWidget.content.model.cells]
    .flatMap((cell) => cell.outputs?.toJSON() ?? [])
    .filter((output) => output.output_type === 'error')
    .map((output) => `${output.ename}: ${output.evalue}`)"""
DONE = f"""() => {{
    const panel = window.jupyterapp.shell.currentWidget;
    return panel.sessionContext.session.kernel.status === 'idle'
        && ([...panel.content.model.cells].filter((cell) => cell.type === 'code')
            .every((cell) => cell.executionCount !== null) || ({ERRORS})().length > 0);
}}"""


class Lab:
    """A running server: `root` is the folder it shows."""

    def __init__(self, url: str, root: Path) -> None:
        self.url = url
        self.root = root

    def run(self, page: Page, name: str, timeout: float = 90_000) -> None:
        """Open the notebook `name` in `page`, run all its cells, and see the last end well."""
        page.goto(f"{self.url}lab/tree/{name}?reset")
        page.wait_for_function(CONNECTED, timeout=timeout, polling=LOOK)
        self.rerun(page, timeout)

    def rerun(self, page: Page, timeout: float = 90_000) -> None:
        """Run all cells of the open notebook, and wait for the last to end well."""
        page.evaluate(RUN_ALL)
        page.wait_for_function(DONE, timeout=timeout, polling=LOOK)
        if errors := page.evaluate(ERRORS):
            raise AssertionError(f"notebook must run without an error, got {errors}")

    def theme(self, page: Page, name: str) -> None:
        """Switch the page to "JupyterLab Light" or "JupyterLab Dark"."""
        page.evaluate(
            "(theme) => window.jupyterapp.commands.execute('apputils:change-theme', { theme })",
            name,
        )
        light = str(name.endswith("Light")).lower()
        page.wait_for_selector(f"body[data-jp-theme-light={light}]", state="attached")

    def end_sessions(self) -> None:
        """Stop every kernel, so that one test does not wait for another's."""
        for session in json.loads(self._ask("api/sessions") or b"[]"):
            self._ask(f"api/sessions/{session['id']}", "DELETE")

    def _ask(self, path: str, method: str = "GET") -> bytes:
        request = urllib.request.Request(self.url + path, method=method)
        with urllib.request.urlopen(request, timeout=60) as reply:
            return bytes(reply.read())


def notebook(path: Path, cells: Sequence[str]) -> Path:
    """Write a notebook with these code cells to `path`."""
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3"}}
    book = new_notebook(
        [new_cell("code", text, name=f"cell-{n}") for n, text in enumerate(cells)], kernel
    )
    path.write_text(text_of(book), encoding="utf-8")
    return path


@contextmanager
def serve(home: Path, root: Path) -> Iterator[Lab]:
    """Yield a server that shows `root`, and whose settings and data lie under `home`."""
    settings = home / "settings"
    settings.mkdir(parents=True)
    (settings / "overrides.json").write_text(json.dumps(QUIET))
    url = f"http://127.0.0.1:{own_ports()}/"
    with (home / "server.log").open("w") as log:
        server = subprocess.Popen(
            _command(url, root, settings), cwd=root, env=_empty(home), stdout=log, stderr=log
        )
        try:
            _await(url, server, home / "server.log")
            yield Lab(url, root)
        finally:
            server.terminate()
            server.wait(60)


def _command(url: str, root: Path, settings: Path) -> list[str]:
    return [
        *(
            sys.executable,
            "-m",
            "jupyterlab",
            "--no-browser",
            "--allow-root",
            "--expose-app-in-browser",
        ),
        "--ServerApp.ip=127.0.0.1",
        f"--ServerApp.port={url.rsplit(':', 1)[1].strip('/')}",
        "--ServerApp.port_retries=0",
        f"--ServerApp.root_dir={root}",
        "--ServerApp.disable_check_xsrf=True",
        "--IdentityProvider.token=",
        f"--LabApp.app_settings_dir={settings}",
    ]


def _empty(home: Path) -> dict[str, str]:
    """Return an environment in which nobody's own Jupyter settings are found."""
    places = {
        "JUPYTER_CONFIG_DIR": "config",
        "JUPYTER_DATA_DIR": "data",
        "JUPYTER_RUNTIME_DIR": "runtime",
        "JUPYTERLAB_SETTINGS_DIR": "user-settings",
        "JUPYTERLAB_WORKSPACES_DIR": "workspaces",
        "IPYTHONDIR": "ipython",
    }
    return os.environ | {name: str(home / folder) for name, folder in places.items()}


def _await(url: str, server: "subprocess.Popen[bytes]", log: Path) -> None:
    """Wait until the server answers; say what it wrote if it does not."""
    end = time.monotonic() + 120  # a busy machine is slow, not wrong
    while time.monotonic() < end and server.poll() is None:
        try:
            with urllib.request.urlopen(url + "api", timeout=60):
                return
        except urllib.error.URLError:
            time.sleep(0.2)
    raise RuntimeError(f"server must answer within 120 s, got:\n{log.read_text()}")
