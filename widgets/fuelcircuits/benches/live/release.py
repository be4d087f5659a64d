"""Write live pages into a folder: scripts, Python, package, pages, and what keeps them offline.

``python -m fuelcircuits.benches.live.release --into build/site --core build/core`` writes a
folder that any static web server serves. `core` is where npm has put Pyodide.
"""

import argparse
import gzip
import hashlib
import json
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Mapping, Sequence
from importlib.resources import files
from pathlib import Path

from fuelcircuits.benches import BENCHES
from fuelcircuits.benches.frame.scripts import SCRIPTS, STYLES, bundle, styles
from fuelcircuits.benches.live.desk import Desk
from fuelcircuits.benches.live.package import package
from fuelcircuits.benches.live.page import Release, contents, page
from fuelcircuits.errors import CircuitError

__all__ = ["LIVE", "engine", "keep_offline", "main", "write_engine"]

HERE = Path(str(files(__package__)))
STATIC = HERE / "static"
LIVE = (
    "keep.js",
    "link.js",
    "asking.js",
    "answering.js",
    "picture.js",
    "seat.js",
    "offline.js",
    "shelf.js",
    "live.js",
)
"""The modules of a live page, each after those that it imports, behind those of a bench."""
PYTHON = ("pyodide.mjs", "pyodide.asm.mjs")
WASM, LOCK = "pyodide.asm.wasm", "pyodide-lock.json"
PACKED = (WASM, "library.zip", "package.zip")


class CoreError(CircuitError):
    """The browser's Python is not where it should be, or node cannot run it."""


def engine(core: Path, cards: Mapping[str, str]) -> dict[str, bytes]:
    """Return all that pages run, by name: scripts, styles, Python and the package."""
    python = core / "node_modules" / "pyodide"
    if not (python / WASM).is_file():
        raise CoreError(f"core must hold Pyodide, which npm puts there, got {core}")
    parts = {name: (python / name).read_bytes() for name in PYTHON}
    large = {WASM: (python / WASM).read_bytes(), **_compiled(python, package(cards))}
    parts |= {f"{name}.packed": gzip.compress(large[name], 9, mtime=0) for name in PACKED}
    lock = json.loads((python / LOCK).read_text("utf-8")) | {"packages": {}}
    texts = {
        LOCK: json.dumps(lock),
        "live.js": bundle(SCRIPTS) + "\n" + bundle(LIVE, STATIC),
        "live.css": styles((*STYLES, "page.css")) + "\n" + (STATIC / "live.css").read_text("utf-8"),
        "worker.js": (STATIC / "worker.js").read_text("utf-8"),
    }
    return parts | {name: text.encode("utf-8") for name, text in texts.items()}


def write_engine(parts: Mapping[str, bytes], into: Path) -> Release:
    """Write what pages run into a folder, and return what they say of it."""
    into.mkdir(parents=True, exist_ok=True)
    for name, content in parts.items():
        (into / name).write_bytes(content)
    whole = hashlib.sha256()
    for name in sorted(parts):
        whole.update(name.encode("utf-8") + hashlib.sha256(parts[name]).digest())
    size = sum(len(content) for name, content in parts.items() if name.endswith(".packed"))
    return Release(whole.hexdigest()[:12], size)


def keep_offline(root: Path, release: Release) -> None:
    """Write the service worker that keeps all that lies in `root`, under a digest of it."""
    paths = [path for path in sorted(root.rglob("*")) if path.is_file() and path.name != "sw.js"]
    kept = {path.relative_to(root).as_posix(): _digest(path.read_bytes()) for path in paths}
    name = _digest(json.dumps(kept).encode("utf-8"))
    facts = json.dumps({"name": name, "engine": release.name, "files": kept}, indent=1)
    script = (STATIC / "sw.js").read_text("utf-8")
    (root / "sw.js").write_text(f"const RELEASE = {facts};\n{script}", encoding="utf-8")


def main(arguments: Sequence[str] | None = None) -> int:
    """Write every bench's live page, and tell how large the pages are."""
    asked = argparse.ArgumentParser(prog="fuelcircuits.benches.live.release", description=__doc__)
    asked.add_argument("--into", type=Path, required=True, help="folder the pages go to")
    asked.add_argument("--core", type=Path, required=True, help="folder where npm has put Pyodide")
    asked.add_argument("--rigs", type=Path, default=Path("course/rigs"), help="folder of cards")
    chosen = asked.parse_args(arguments)
    cards = {path.stem: path.read_text("utf-8") for path in sorted(chosen.rigs.glob("*.toml"))}
    release = write_engine(engine(chosen.core, cards), chosen.into / "live")
    write_pages(cards, chosen.into / "benches", release)
    keep_offline(chosen.into, release)
    return 0


def write_pages(cards: Mapping[str, str], into: Path, release: Release) -> None:
    """Write the page of every bench, and the one that lists them."""
    into.mkdir(parents=True, exist_ok=True)
    desk, rigs = Desk(cards), tuple(sorted(cards, reverse=True))
    (into / "index.html").write_text(contents(release), encoding="utf-8")
    for stem in BENCHES:
        text = page(stem, desk, rigs, release)
        (into / f"{stem}.html").write_text(text, encoding="utf-8")
        sys.stdout.write(f"{stem}.html: {len(text.encode('utf-8')) / 1000:.0f} kB\n")


def _compiled(python: Path, source: bytes) -> dict[str, bytes]:
    """Return library and package as the browser's Python has compiled them."""
    node = shutil.which("node")
    if node is None:
        raise CoreError("node must be on this machine, which compiles for the browser's Python")
    with tempfile.TemporaryDirectory() as folder:
        given = Path(folder) / "source.zip"
        given.write_bytes(source)
        words = [node, str(HERE / "core" / "forge.mjs"), str(python), str(given), folder]
        done = subprocess.run(words, capture_output=True, text=True, check=False)
        if done.returncode:
            raise CoreError(f"node must run the browser's Python, got {done.stderr[-2000:]}")
        return {name: (Path(folder) / name).read_bytes() for name in PACKED[1:]}


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()[:12]


if __name__ == "__main__":
    sys.exit(main())
