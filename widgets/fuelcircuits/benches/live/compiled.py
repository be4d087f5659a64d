"""Archives of compiled Python, made by the browser's Python for itself: half the time to start.

This runs once, when pages are built. Of Python's own library it keeps what the benches have
used by then, and of every module what running it takes: no docstrings and no line numbers, and of
our own functions no types.
"""

import ast
import sys
import traceback
import zipfile
from collections.abc import Callable, Iterable, Iterator
from importlib.util import MAGIC_NUMBER
from marshal import dumps
from pathlib import Path
from types import CodeType

from fuelcircuits.benches import BENCHES
from fuelcircuits.benches.live.desk import desk_in
from fuelcircuits.benches.live.package import NAME, archive

__all__ = ["library", "rehearse", "squeezed"]

OURS = f"{NAME}/"
UNCHECKED = MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8)
"""Head of compiled code that stands without its source; PEP 552, a hash that is not checked."""


def rehearse(package: str) -> None:
    """Ask once for all that a page may ask, so that every module that it takes is there."""
    desk = desk_in(package)
    desk.ask('{"ask": "card", "text": "nane = 3", "file": "card.toml"}')
    written = '{"entries": {"low_speed.jet_bore": "0.80"}, "ran_well": {"idle-mixture": "0.93"}}'
    for do in ("stand", "check"):
        desk.ask(f'{{"ask": "owner", "do": "{do}", "written": {written}}}')
    desk.ask('{"ask": "owner", "do": "flow", "entry": "x", "volume": "1 g", "head": "1"}')
    desk.ask('{"ask": "owner", "do": "open", "text": "no card", "file": "card.toml"}')
    read = '{"day": "2026-05-02", "readings": {"idle-vacuum": "18"}, "seen": {"wet-nozzle": "no"}}'
    for do in ("stand", "report"):
        desk.ask(f'{{"ask": "day", "do": "{do}", "written": {written}, "read": {read}}}')
    desk.ask('{"ask": "day", "do": "open", "text": "no day", "file": "days.toml"}')
    for stem in BENCHES:
        desk.ask(f'{{"ask": "bench", "stem": "{stem}", "rig": "plover", "system": "US"}}')
    desk.ask('{"ask": "drive", "rig": "plover", "do": "about"}')
    desk.ask(
        '{"ask": "drive", "rig": "plover", "do": "go", "feet": [[1, 0.2, "low", 0, true, false]]}'
    )
    desk.ask('{"ask": "drive", "rig": "plover", "do": "save"}')
    desk.ask('{"ask": "drive", "rig": "plover", "do": "load", "text": "no trace"}')
    desk.ask('{"ask": "drive", "rig": "plover", "do": "begin", "outing": {"engine": "hot"}}')
    try:
        desk.ask("{}")
    except KeyError:
        traceback.format_exc()


def library(home: str) -> bytes:
    """Return Python's own library, of the archive at `home`, as far as it has been used."""
    origins = [getattr(module.__spec__, "origin", None) for module in [*sys.modules.values()]]
    parts = [str(each).partition(f"{home}/") for each in origins]
    return squeezed(home, {inside for _, found, inside in parts if found}.__contains__)


def squeezed(source: str | Path, wanted: Callable[[str], bool] = bool) -> bytes:
    """Return an archive with its Python compiled."""
    with zipfile.ZipFile(source) as opened:
        names = filter(wanted, opened.namelist())
        return archive(dict(_compiled((name, opened.read(name)) for name in names)))


def _compiled(files: Iterable[tuple[str, bytes]]) -> Iterator[tuple[str, bytes]]:
    for name, content in files:
        if name.endswith(".py"):
            tree = ast.parse(content, name)
            if name.startswith(OURS):
                _untyped(tree)
            code = compile(tree, name, "exec", dont_inherit=True, optimize=2)
            yield f"{name}c", UNCHECKED + dumps(_bare(code))
        else:
            yield name, content


def _untyped(tree: ast.Module) -> None:
    """Take the types of parameters and results out; a class needs those of its fields."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            node.returns = None
        elif isinstance(node, ast.arg):
            node.annotation = None


def _bare(code: CodeType) -> CodeType:
    """Return code without its line numbers, and so all code within."""
    consts = tuple(_bare(each) if isinstance(each, CodeType) else each for each in code.co_consts)
    return code.replace(co_linetable=b"", co_consts=consts)
