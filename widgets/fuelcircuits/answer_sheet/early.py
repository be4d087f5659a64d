"""A cell that is run too early says which cell to run first, instead of a NameError.

Every kernel loads this as an extension when it starts: the wheel lays down a setting for that. It
speaks only in notebooks that use the course. A sheet that is begun, or an owner's car, loads it
where that setting is not.
"""

import ast
import json
import os
import sys
from collections.abc import Collection, Iterator, Sequence
from pathlib import Path
from typing import Any

__all__ = [
    "first_cell_with",
    "install",
    "install_here",
    "load_ipython_extension",
    "said",
    "shell_here",
    "uninstall",
]

COURSE = "fuelcircuits"
"""What a notebook of the course has in one of its cells."""

TOO_EARLY = "{name} is not known yet. Run this cell first, then the one you ran:\n\n    {first}\n"
NOWHERE = (
    "{name} is not known. No cell of this notebook makes it: look for a slip of the pen, or save "
    "the notebook if you have just written that cell."
)


def install(shell: Any) -> None:
    """Let an IPython shell say what to run first where a name is not known."""
    shell.set_custom_exc((NameError,), _told)


def load_ipython_extension(shell: Any) -> None:
    """Do so as an extension of IPython."""
    install(shell)


def uninstall(shell: Any) -> None:
    """Let the shell show errors as it does by itself."""
    shell.set_custom_exc((), None)


def install_here() -> None:
    """Do so in the shell that runs this, if one does."""
    if shell := shell_here():
        install(shell)


def shell_here() -> Any:
    """Return the IPython shell that runs this; none outside a notebook."""
    return getattr(sys.modules.get("IPython"), "get_ipython", lambda: None)()


def said(error: NameError, folder: Path, known: Collection[str] = ()) -> str:
    """Return what to say about a name that is not known, from the notebooks in `folder`.

    `known` are the names that the notebook has by now.
    """
    name = getattr(error, "name", None) or str(error).partition("'")[2].partition("'")[0]
    first = first_cell_with(name, folder, known)
    words = TOO_EARLY if first else NOWHERE
    return words.format(name=name, first=first)


def first_cell_with(name: str, folder: Path, known: Collection[str] = ()) -> str:
    """Return the first line of the cell to begin with for a name; empty if none makes it.

    That is the first cell that makes it, or, where this needs a name that is not `known` either,
    the one that makes that.
    """
    for path in _notebooks(folder):
        cells = list(_code(path))
        for at, source in enumerate(cells):
            if name in _made(source):
                return _first_line(_beginning(cells, at, known))
    return ""


def _notebooks(folder: Path) -> list[Path]:
    """Return the notebook that runs here, where its server says so; else all in the folder."""
    own = folder / Path(os.environ.get("JPY_SESSION_NAME", "")).name
    return [own] if own.suffix == ".ipynb" and own.is_file() else sorted(folder.glob("*.ipynb"))


def _beginning(cells: Sequence[str], at: int, known: Collection[str]) -> str:
    """Return the source of the cell to run before all others that the cell `at` needs."""
    needed = _used(cells[at]) - set(known)
    for before in range(at):
        if needed & _made(cells[before]):
            return _beginning(cells, before, known)
    return cells[at]


def _first_line(source: str) -> str:
    return next(line for line in source.splitlines() if line.strip())


def _told(shell: Any, kind: Any, error: Any, trace: Any, tb_offset: Any = None) -> None:
    """Say it in the notebook; what is nobody's to explain is shown as ever."""
    frame = trace
    while frame is not None and frame.tb_next is not None:
        frame = frame.tb_next
    ours = frame is not None and frame.tb_frame.f_globals is shell.user_ns
    if ours and _of_course(Path.cwd()):
        words = said(error, Path.cwd(), shell.user_ns)
        error._render_traceback_ = words.splitlines  # what IPython shows in a traceback's place
    shell.showtraceback((kind, error, trace), tb_offset=tb_offset)


def _of_course(folder: Path) -> bool:
    """Return whether what runs here is a notebook of the course."""
    return any(COURSE in source for path in _notebooks(folder) for source in _code(path))


def _code(path: Path) -> Iterator[str]:
    """Yield the source of every code cell; nothing of a file that cannot be read."""
    try:
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    except (OSError, ValueError, KeyError, TypeError):
        return
    for cell in cells:
        if cell.get("cell_type") == "code":
            yield "".join(cell["source"])


def _used(source: str) -> set[str]:
    """Return the names that a cell asks for."""
    return {
        node.id
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load)
    }


def _made(source: str) -> set[str]:
    """Return the names that a cell gives a value."""
    try:
        tree = ast.parse(source)
    except SyntaxError:
        return set()
    found = {
        node.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Import | ast.ImportFrom):
            found |= {(one.asname or one.name).split(".")[0] for one in node.names}
        elif isinstance(node, ast.FunctionDef | ast.ClassDef):
            found.add(node.name)
    return found
