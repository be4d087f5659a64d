"""Measure speed: one line a measure, all of them in bench.json.

Every module beside this one offers ``measures()``, which yields dicts of name, value and unit.
Ratios are taken within one run on one machine; nothing here passes or fails.
"""

import importlib
import json
import pkgutil
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent


def all_measures() -> list[dict[str, Any]]:
    """Run every benchmark module in turn, printing each measure as it comes."""
    found = []
    for module in pkgutil.iter_modules([str(HERE)]):
        if module.name.startswith("_"):
            continue
        for measure in importlib.import_module(f"tests.benchmarks.{module.name}").measures():
            print(f"{measure['name']}: {measure['value']:.4g} {measure['unit']}", flush=True)
            found.append(measure)
    return found


if __name__ == "__main__":
    Path("bench.json").write_text(json.dumps(all_measures(), indent=2) + "\n")
