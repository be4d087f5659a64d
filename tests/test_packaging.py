"""The two lists of requirements agree, and every requirement is pinned for a fresh machine."""

import re
import subprocess
import sys
import tomllib
from typing import Any

import yaml

from tests.places import TOP

WORKSPACE, TRAINEES, INSTRUCTORS = (
    tomllib.loads((TOP / folder / "pyproject.toml").read_text())
    for folder in (".", "widgets", "grader")
)
CONDA = yaml.safe_load((TOP / "environment.yml").read_text())["dependencies"]
OWN = {"fuelcircuits"}


def asked(project: dict[str, Any]) -> set[str]:
    extras = project["project"].get("optional-dependencies", {})
    return {*project["project"]["dependencies"], *(one for each in extras.values() for one in each)}


def name_of(requirement: str) -> str:
    return re.split(r"[<>=!~;\[ ]", requirement, maxsplit=1)[0].lower()


def test_environment_asks_for_what_both_distributions_ask_for() -> None:
    conda = {line for line in CONDA if isinstance(line, str)} - {"pip"}
    conda |= {line for part in CONDA if isinstance(part, dict) for line in part["pip"]}
    python = "python" + TRAINEES["project"]["requires-python"]
    editable = {"-e ./widgets[pictures]", "-e ./grader"}
    assert conda == (asked(TRAINEES) | asked(INSTRUCTORS) | {python} | editable) - OWN


def test_both_distributions_ask_for_the_same_python_and_bear_the_same_version() -> None:
    for key in ("requires-python", "version", "license"):
        assert TRAINEES["project"][key] == INSTRUCTORS["project"][key]


def test_every_requirement_is_pinned() -> None:
    pins = {name_of(line) for line in (TOP / ".ci/constraints.txt").read_text().splitlines()}
    groups = {one for each in WORKSPACE["dependency-groups"].values() for one in each}
    wanted = asked(TRAINEES) | asked(INSTRUCTORS) | groups
    assert {name_of(line) for line in wanted - OWN} <= pins


def test_physics_runs_without_a_units_or_plotting_library() -> None:
    code = (
        "import sys, pkgutil, importlib, fuelcircuits.physics as p\n"
        "for m in pkgutil.walk_packages(p.__path__, 'fuelcircuits.physics.'):\n"
        "    importlib.import_module(m.name)\n"
        "print(sorted({'pint', 'matplotlib', 'IPython', 'fuelmarks'} & set(sys.modules)))"
    )
    seen = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert seen.stdout.strip() == "[]"
