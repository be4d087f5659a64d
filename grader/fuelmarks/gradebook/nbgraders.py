"""What marking takes from nbgrader: its tables and its checks of a cell, without its applications.

nbgrader's package loads its pages for formgrader and JupyterLab with it, which takes longer than
to mark a class. Here its modules are loaded one by one, below a package that becomes the whole one
as soon as anybody asks it for more.
"""

import sys
from importlib.util import find_spec, module_from_spec
from types import ModuleType
from typing import Any


class _Package(ModuleType):
    """A package that loads itself once it is asked for what is none of its modules."""

    def __getattr__(self, name: str) -> Any:
        spec, own = self.__spec__, not name.startswith("__") or name == "__version__"
        if spec is None or spec.loader is None or not own or find_spec(f"nbgrader.{name}"):
            raise AttributeError(name)
        self.__class__ = ModuleType  # type: ignore[assignment]  # it is like any other now
        spec.loader.exec_module(self)
        return getattr(self, name)


def _begin() -> None:
    """Have the package there, if nobody has loaded it yet."""
    spec = find_spec("nbgrader")
    if spec is not None and "nbgrader" not in sys.modules:
        package = sys.modules["nbgrader"] = module_from_spec(spec)
        package.__class__ = _Package


_begin()

from nbgrader.api import Base, Gradebook  # noqa: E402
from nbgrader.dbutil import ALEMBIC_DIR  # noqa: E402
from nbgrader.utils import (  # noqa: E402
    compute_checksum,
    determine_grade,
    is_grade,
    is_solution,
    is_task,
    parse_utc,
)

__all__ = [
    "ALEMBIC_DIR",
    "Base",
    "Gradebook",
    "compute_checksum",
    "determine_grade",
    "is_grade",
    "is_solution",
    "is_task",
    "parse_utc",
]
