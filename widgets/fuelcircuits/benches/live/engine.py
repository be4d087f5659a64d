"""What live pages run: scripts, styles, the browser's Python and the package, all compiled."""

import gzip
import hashlib
import json
import shutil
import subprocess
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from importlib.resources import files
from pathlib import Path

from fuelcircuits.benches.drive.scripts import DRIVE, DRIVE_STATIC, DRIVE_STYLE
from fuelcircuits.benches.frame.scripts import SCRIPTS, STYLES, bundle, styles
from fuelcircuits.benches.live.package import package
from fuelcircuits.benches.live.page import Release
from fuelcircuits.errors import CircuitError

__all__ = ["LIVE", "PYODIDE", "STATIC", "compiled", "digest", "engine", "write_engine"]

HERE = Path(str(files(__package__)))
STATIC = HERE / "static"
FORGE = HERE / "core" / "forge.mjs"
LIVE = (
    "asking.js",
    "answering.js",
    "seat.js",
    "offline.js",
    "shelf.js",
    "driven.js",
    "day.js",
    "owner.js",
    "live.js",
)
"""The modules of a live page, each after those that it imports, behind those of a bench."""
LIVE_STYLE = STATIC / "live.css"
PYODIDE = Path("node_modules") / "pyodide"
"""Where npm puts the browser's Python."""
PYTHON = ("pyodide.mjs", "pyodide.asm.mjs")
WASM, LOCK = "pyodide.asm.wasm", "pyodide-lock.json"


class CoreError(CircuitError):
    """The browser's Python is not where it should be, or node cannot run it."""


def engine(core: Path, cards: Mapping[str, str]) -> dict[str, bytes]:
    """Return all that pages run, by name; what is large is packed."""
    python, made = core / PYODIDE, compiled(core, cards)
    large = [python / WASM, made / "library.zip", made / "package.zip"]
    parts = {f"{path.name}.packed": _packed(path) for path in large}
    parts |= {name: (python / name).read_bytes() for name in PYTHON}
    lock = json.loads((python / LOCK).read_text("utf-8")) | {"packages": {}}
    texts = {
        LOCK: json.dumps(lock),
        "live.js": "\n".join([bundle(SCRIPTS), bundle(DRIVE, DRIVE_STATIC), bundle(LIVE, STATIC)]),
        "live.css": "\n".join(
            [
                styles((*STYLES, "page.css")),
                DRIVE_STYLE.read_text("utf-8"),
                LIVE_STYLE.read_text("utf-8"),
            ]
        ),
        "worker.js": (STATIC / "worker.js").read_text("utf-8"),
    }
    return parts | {name: text.encode("utf-8") for name, text in texts.items()}


def compiled(core: Path, cards: Mapping[str, str]) -> Path:
    """Return the folder of library and package as the browser's Python has compiled them.

    It lies in `core` under a digest of the package, and is made if it is not there yet.

    Raises
    ------
    CoreError
        If `core` holds no Pyodide, or node is missing or cannot run it.
    """
    if not (core / PYODIDE / WASM).is_file():
        raise CoreError(f"core must hold Pyodide, which npm puts there, got {core}")
    source = package(cards)
    made_of = source + FORGE.read_bytes() + (core / PYODIDE / LOCK).read_bytes()
    kept = core / f"compiled-{digest(made_of)}"
    if not kept.is_dir():
        with tempfile.TemporaryDirectory(dir=core) as folder:
            made = _forge(core / PYODIDE, source, Path(folder))
            with suppress(OSError):  # somebody else was faster
                made.rename(kept)
    return kept


def write_engine(parts: Mapping[str, bytes], into: Path) -> Release:
    """Write what pages run into a folder, and return what they say of it."""
    into.mkdir(parents=True, exist_ok=True)
    for name, content in parts.items():
        (into / name).write_bytes(content)
    told = {name: digest(parts[name]) for name in sorted(parts)}
    size = sum(len(content) for name, content in parts.items() if name.endswith(".packed"))
    return Release(digest(json.dumps(told).encode("utf-8")), size)


def digest(content: bytes) -> str:
    """Return a short name for `content`, another for any other."""
    return hashlib.sha256(content).hexdigest()[:12]


def _forge(python: Path, source: bytes, folder: Path) -> Path:
    """Let the browser's Python compile its library and the package; return where they are."""
    node = shutil.which("node")
    if node is None:
        raise CoreError("node must be on this machine, which compiles for the browser's Python")
    given, into = folder / "source.zip", folder / "made"
    given.write_bytes(source)
    into.mkdir()
    words = [node, str(FORGE), str(python), str(given), str(into)]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    if done.returncode:
        raise CoreError(f"node must run the browser's Python, got {done.stderr[-2000:]}")
    return into


def _packed(path: Path) -> bytes:
    return gzip.compress(path.read_bytes(), 9, mtime=0)
