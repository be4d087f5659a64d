"""Cells of a few lines each, and what became of them."""

from fuelmarks.runner import Cell, Limits, Runner

__all__ = ["cells", "statuses"]


def cells(*sources: str) -> list[Cell]:
    return [Cell(f"{i}", source) for i, source in enumerate(sources)]


def statuses(runner: Runner, *sources: str, **limits: float) -> list[str]:
    result = runner.run(cells(*sources), Limits(**limits))  # type: ignore[arg-type]
    return [outcome.status for outcome in result.outcomes]
