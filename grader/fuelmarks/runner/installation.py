"""What of a Python installation an interpreter needs to run: files and folders, and no more.

An installation may lie anywhere, a virtual environment even in the very folder of a course: what
else lies in its folder is nobody's business.
"""

import os
import site
import sys
import sysconfig
from collections.abc import Iterator
from functools import cache
from pathlib import Path

__all__ = ["installation"]


@cache
def installation() -> tuple[Path, ...]:
    """Return the interpreter, its shared library, its standard library and installed modules.

    None of them lies below another.
    """
    found = dict.fromkeys(path for path in _parts() if path.exists())
    return tuple(path for path in found if not any(one in found for one in path.parents))


def _parts() -> Iterator[Path]:
    """Yield every part, where it is asked for and where it really is."""
    base = {"base": sys.base_prefix, "platbase": sys.base_exec_prefix}
    for name in ("stdlib", "platstdlib"):
        folder = sysconfig.get_path(name, vars={**base, "installed_base": sys.base_prefix})
        yield from _both(Path(folder))
    yield Path(os.path.realpath(sys.executable))
    if sys.prefix == sys.base_prefix:
        yield Path(sys.executable)
    yield from _shared_library()
    for prefix in (Path(sys.prefix), Path(sys.base_prefix)):
        if (prefix / "conda-meta").is_dir():  # its modules need libraries that lie beside Python's
            yield prefix / "lib"
    yield Path(sys.prefix, "pyvenv.cfg")
    for folder in site.getsitepackages():
        yield Path(folder)


def _shared_library() -> Iterator[Path]:
    """Yield the library that the interpreter is linked with, if it is."""
    folders = {sysconfig.get_config_var("LIBDIR"), os.path.join(sys.base_prefix, "lib")}
    for name in (sysconfig.get_config_var("INSTSONAME"), sysconfig.get_config_var("LDLIBRARY")):
        for folder in sorted(one for one in folders if one):
            if name and ".so" in name:
                yield from _both(Path(folder, name))


def _both(path: Path) -> Iterator[Path]:
    """Yield a path as it is written, and as it is without links."""
    yield path
    yield path.resolve()
