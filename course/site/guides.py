"""The pages on how to run the course, taken from the README, whose sections they are."""

import re
from collections.abc import Mapping
from pathlib import Path

__all__ = ["GUIDES", "PAPERS", "guide", "introduction"]

GUIDES: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "instructor": (
        "For instructors",
        ("Set it up as an instructor, or to learn alone", "As an instructor", "Safety"),
    ),
    "student": (
        "For students",
        ("Install it as a student", "Alone", "Safety"),
    ),
    "owner": ("For owners", ("As an owner", "Install it as a student", "Safety")),
}
"""Title and sections of each page."""
PAPERS: Mapping[str, str] = {
    "class-server": "grader/CLASS_SERVER.md",
    "without-a-server": "grader/WITHOUT_A_SERVER.md",
}
"""Pages that are files of their own beside the README."""
HEADING = re.compile(r"^## (.*)$", re.M)


def guide(readme: Path, name: str) -> str:
    """Return one page as MyST; raise `KeyError` if the README lacks a section."""
    if name in PAPERS:
        return (readme.parent / PAPERS[name]).read_text("utf-8")
    title, names = GUIDES[name]
    sections = _sections(readme)
    text = "\n\n".join([f"# {title}", *(f"## {each}\n\n{sections[each]}" for each in names)])
    for page, path in PAPERS.items():
        text = text.replace(f"]({path})", f"]({page}.md)")
    return text


def introduction(readme: Path) -> str:
    """Return what stands before the first section."""
    return HEADING.split(readme.read_text("utf-8"))[0].strip()


def _sections(readme: Path) -> dict[str, str]:
    _, *parts = HEADING.split(readme.read_text("utf-8"))
    return {name: text.strip() for name, text in zip(parts[::2], parts[1::2], strict=True)}
