"""The two lists of requirements agree, and every requirement is pinned for a fresh machine."""

import re
import subprocess
import sys
import tomllib
from pathlib import Path

import yaml

TOP = Path(__file__).parents[1]
PROJECT = tomllib.loads((TOP / "pyproject.toml").read_text())
CONDA = yaml.safe_load((TOP / "environment.yml").read_text())["dependencies"]


def name_of(requirement: str) -> str:
    return re.split(r"[<>=!~;\[ ]", requirement, maxsplit=1)[0].lower()


def test_environment_asks_for_what_pyproject_asks_for() -> None:
    conda = {line for line in CONDA if isinstance(line, str)} - {"pip"}
    conda |= {line for part in CONDA if isinstance(part, dict) for line in part["pip"]} - {"-e ."}
    python = "python" + PROJECT["project"]["requires-python"]
    assert conda == {*PROJECT["project"]["dependencies"], python}


def test_every_requirement_is_pinned() -> None:
    pins = {name_of(line) for line in (TOP / ".ci/constraints.txt").read_text().splitlines()}
    wanted = PROJECT["project"]["dependencies"] + PROJECT["dependency-groups"]["test"]
    assert {name_of(line) for line in wanted} <= pins


def test_physics_runs_without_a_units_or_plotting_library() -> None:
    code = (
        "import sys, pkgutil, importlib, fuelcircuits.physics as p\n"
        "for m in pkgutil.iter_modules(p.__path__):\n"
        "    importlib.import_module(f'{p.__name__}.{m.name}')\n"
        "print(sorted({'pint', 'matplotlib', 'IPython', 'fuelmarks'} & set(sys.modules)))"
    )
    seen = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert seen.stdout.strip() == "[]"


def test_trainee_package_never_imports_the_marking_package() -> None:
    for source in (TOP / "widgets").rglob("*.py"):
        assert not re.search(r"^\s*(import|from) fuelmarks", source.read_text(), re.M), source
