"""Live pages in a folder that any static web server serves, and what keeps them offline."""

import json
from collections.abc import Callable, Mapping
from pathlib import Path

from fuelcircuits.benches import BENCHES
from fuelcircuits.benches.live.desk import Desk
from fuelcircuits.benches.live.engine import STATIC, digest
from fuelcircuits.benches.live.page import DRIVE, OWNER, Release, drive_page, owner_page, page

__all__ = ["cards_in", "keep_offline", "write_pages"]


def write_pages(
    cards: Mapping[str, str], into: Path, release: Release, below: Callable[[str], str]
) -> None:
    """Write the page of every bench and of the drive; `below` gives the HTML under one."""
    into.mkdir(parents=True, exist_ok=True)
    desk, rigs = Desk(cards), tuple(cards)
    for stem in BENCHES:
        text = page(stem, desk, rigs, release, below(stem))
        (into / f"{stem}.html").write_text(text, encoding="utf-8")
    driven = drive_page(desk, rigs, release, below(DRIVE))
    (into / f"{DRIVE}.html").write_text(driven, encoding="utf-8")
    (into / f"{OWNER}.html").write_text(owner_page(release), encoding="utf-8")


def keep_offline(root: Path, release: Release) -> None:
    """Write the service worker that keeps all that lies in `root`, under a digest of it."""
    paths = [path for path in sorted(root.rglob("*")) if path.is_file() and path.name != "sw.js"]
    kept = {path.relative_to(root).as_posix(): digest(path.read_bytes()) for path in paths}
    name = digest(json.dumps(kept).encode("utf-8"))
    facts = json.dumps({"name": name, "engine": release.name, "files": kept}, indent=1)
    script = (STATIC / "sw.js").read_text("utf-8")
    (root / "sw.js").write_text(f"const RELEASE = {facts};\n{script}", encoding="utf-8")


def cards_in(folder: Path) -> dict[str, str]:
    """Return what the cards of the teaching rigs say, the first rig first."""
    paths = sorted(folder.glob("*.toml"), reverse=True)
    return {path.stem: path.read_text("utf-8") for path in paths}
