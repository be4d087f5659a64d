"""Write live pages into a folder: what they run, the pages, and what keeps them offline.

``python -m fuelcircuits.benches.live.release --into build/site --core build/core`` writes a
folder that any static web server serves. `core` is where npm has put Pyodide.
"""

import argparse
import json
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from fuelcircuits.benches import BENCHES
from fuelcircuits.benches.live.desk import Desk
from fuelcircuits.benches.live.engine import STATIC, digest, engine, write_engine
from fuelcircuits.benches.live.page import Release, contents, page

__all__ = ["cards_in", "keep_offline", "main", "write_pages"]


def write_pages(cards: Mapping[str, str], into: Path, release: Release) -> None:
    """Write the page of every bench, and the one that lists them."""
    into.mkdir(parents=True, exist_ok=True)
    desk, rigs = Desk(cards), tuple(cards)
    (into / "index.html").write_text(contents(release), encoding="utf-8")
    for stem in BENCHES:
        text = page(stem, desk, rigs, release)
        (into / f"{stem}.html").write_text(text, encoding="utf-8")


def keep_offline(root: Path, release: Release) -> None:
    """Write the service worker that keeps all that lies in `root`, under a digest of it."""
    paths = [path for path in sorted(root.rglob("*")) if path.is_file() and path.name != "sw.js"]
    kept = {path.relative_to(root).as_posix(): digest(path.read_bytes()) for path in paths}
    name = digest(json.dumps(kept).encode("utf-8"))
    facts = json.dumps({"name": name, "engine": release.name, "files": kept}, indent=1)
    script = (STATIC / "sw.js").read_text("utf-8")
    (root / "sw.js").write_text(f"const RELEASE = {facts};\n{script}", encoding="utf-8")


def main(arguments: Sequence[str] | None = None) -> int:
    """Write every bench's live page, and tell how large the whole is."""
    asked = argparse.ArgumentParser(prog="fuelcircuits.benches.live.release", description=__doc__)
    asked.add_argument("--into", type=Path, required=True, help="folder the pages go to")
    asked.add_argument("--core", type=Path, required=True, help="folder where npm has put Pyodide")
    asked.add_argument("--rigs", type=Path, default=Path("course/rigs"), help="folder of cards")
    chosen = asked.parse_args(arguments)
    cards = cards_in(chosen.rigs)
    release = write_engine(engine(chosen.core, cards), chosen.into / "live")
    write_pages(cards, chosen.into / "benches", release)
    keep_offline(chosen.into, release)
    size = sum(path.stat().st_size for path in chosen.into.rglob("*") if path.is_file())
    sys.stdout.write(f"{len(BENCHES)} benches, {size / 1e6:.1f} MB in {chosen.into}\n")
    return 0


def cards_in(folder: Path) -> dict[str, str]:
    """Return what the cards of the teaching rigs say, the first rig first."""
    paths = sorted(folder.glob("*.toml"), reverse=True)
    return {path.stem: path.read_text("utf-8") for path in paths}


if __name__ == "__main__":
    sys.exit(main())
