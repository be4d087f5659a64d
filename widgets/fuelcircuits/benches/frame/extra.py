"""Modules that only pictures need, imported when a picture is asked for."""

from importlib import import_module
from types import ModuleType
from typing import Any

__all__ = ["extra"]

GET = 'pip install "fuelcircuits[pictures]"'


def extra(name: str) -> Any:
    """Return a module of the extra "pictures", or raise `ImportError` that says how to get it."""
    try:
        module: ModuleType = import_module(name)
    except ImportError as error:
        package = name.partition(".")[0]
        raise ImportError(f"pictures need {package}, which is missing; get it by: {GET}") from error
    return module
