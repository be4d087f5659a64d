"""The package as a page takes it: what its questions need, on Python's own library, in one archive.

Modules that no answer needs stay out, and so do those that import anything else, and those that
import such modules: pages have no NumPy, no Pint and no widgets.
"""

import ast
import io
import sys
import zipfile
from collections.abc import Iterator, Mapping
from importlib.resources import files
from pathlib import Path

from fuelcircuits.benches import BENCHES
from fuelcircuits.benches.live.desk import CARDS

__all__ = ["archive", "modules", "package"]

NAME = "fuelcircuits"
FIRST = (
    f"{NAME}.benches.live.desk",
    f"{NAME}.benches.live.compiled",
    *(f"{NAME}.benches.{stem}.bench" for stem in BENCHES),
)
"""What pages import by name; `compiled` while they are built."""
BESIDE = ("*.svg", "*.json", "*.toml", "rigs/*.toml")
"""What modules read from beside them."""
EPOCH = (1980, 1, 1, 0, 0, 0)


def package(cards: Mapping[str, str]) -> bytes:
    """Return the archive: modules, what lies beside them, and the `cards` by their rigs' names."""
    parts = {f"{CARDS}{name}.toml": text.encode("utf-8") for name, text in cards.items()}
    top = Path(str(files(NAME)))
    every = modules()
    folders = {path.parent for path in every.values()}
    found = {path for folder in folders for kind in BESIDE for path in folder.glob(kind)}
    for path in (*every.values(), *found):
        parts[f"{NAME}/{path.relative_to(top).as_posix()}"] = path.read_bytes()
    return archive(parts)


def archive(parts: Mapping[str, bytes]) -> bytes:
    """Return an archive of files, the same bytes for the same files."""
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_STORED) as opened:
        for name in sorted(parts):
            opened.writestr(zipfile.ZipInfo(name, EPOCH), parts[name])
    return written.getvalue()


def modules() -> dict[str, Path]:
    """Return every module that a page may import, with its file."""
    top = Path(str(files(NAME)))
    paths = {_name(top, path): path for path in sorted(top.rglob("*.py"))}
    asked = {name: set(_imported(path)) for name, path in paths.items()}
    known = set(sys.stdlib_module_names) | {NAME}
    out = {
        name for name, all_of in asked.items() if {each.split(".")[0] for each in all_of} - known
    }
    while more := {name for name, all_of in asked.items() if all_of & out} - out:
        out |= more
    needed = _needed(asked) - out
    return {name: path for name, path in paths.items() if name in needed}


def _needed(asked: Mapping[str, set[str]]) -> set[str]:
    """Return the modules that those of `FIRST` import, however far behind, and their packages."""
    found, new = set[str](), set(FIRST)
    while new:
        found |= new
        imported = {one for name in new for one in asked[name]}
        packages = {name.rpartition(".")[0] for name in new}
        new = ((imported | packages) & asked.keys()) - found
    return found


def _name(top: Path, path: Path) -> str:
    parts = path.relative_to(top.parent).with_suffix("").parts
    return ".".join(parts).removesuffix(".__init__")


def _imported(path: Path) -> Iterator[str]:
    """Yield what a module imports as it is loaded; what it takes out of a package may be one."""
    for node in ast.parse(path.read_text("utf-8")).body:
        if isinstance(node, ast.Import):
            yield from (each.name for each in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield str(node.module)
            yield from (f"{node.module}.{each.name}" for each in node.names)
