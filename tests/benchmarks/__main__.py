"""Measure speed: one line a measure, all of them in bench.json.

Every module beside this one either offers ``measures()``, which yields dicts of name, value and
unit, or is a command of its own, ``python -m tests.benchmarks.NAME``, which is named and left.
Ratios are taken within one run on one machine; nothing here passes or fails.
"""

import importlib
import json
import pkgutil
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

HERE = Path(__file__).parent
OUT = Path("bench.json")


def modules() -> Iterator[ModuleType]:
    """Yield every benchmark module."""
    for module in pkgutil.iter_modules([str(HERE)]):
        if not module.name.startswith("_"):
            yield importlib.import_module(f"tests.benchmarks.{module.name}")


def main() -> None:
    """Run every module in turn; print each measure as it comes, and keep what there is so far."""
    found: list[dict[str, Any]] = []
    for module in modules():
        if not hasattr(module, "measures"):
            print(f"left out, a command of its own: python -m {module.__name__}", flush=True)
            continue
        for measure in module.measures():
            print(f"{measure['name']}: {measure['value']:.4g} {measure['unit']}", flush=True)
            found.append(measure)
        OUT.write_text(json.dumps(found, indent=2) + "\n")


if __name__ == "__main__":
    main()
