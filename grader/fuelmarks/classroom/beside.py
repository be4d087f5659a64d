"""The files beside a notebook that it names, such as a picture: taken along, within limits."""

from collections.abc import Callable, Collection, Mapping

from fuelmarks.gradebook.submission import SubmissionError

__all__ = ["files_beside"]

LARGEST = 5 << 20
MOST = 20


def files_beside(
    text: str, around: Mapping[str, Callable[[], bytes]], reserved: Collection[str]
) -> tuple[dict[str, bytes], list[str]]:
    """Return the files around a notebook that its `text` names, and what was left out, and why."""
    taken: dict[str, bytes] = {}
    left: list[str] = []
    named = [name for name in sorted(around) if name in text and not name.endswith(".ipynb")]
    for name in named:
        if name in reserved:
            continue
        if len(taken) == MOST:
            left.append(f"{name} left out, more than {MOST} files")
            continue
        try:
            data = around[name]()
        except SubmissionError as error:
            left.append(f"{name} left out, {error}")
            continue
        if len(data) > LARGEST:
            size, most = len(data) / 1e6, LARGEST / 1e6
            left.append(f"{name} left out, {size:.0f} MB is more than {most:.0f}")
        else:
            taken[name] = data
    return taken, left
