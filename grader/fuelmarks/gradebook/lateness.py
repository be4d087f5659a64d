"""How late something came, in words."""

from datetime import timedelta

__all__ = ["lateness"]


def lateness(late: timedelta | None) -> str:
    """Return how late something came, in the two largest units."""
    if late is None:
        return ""
    if late <= timedelta(0):
        return "on time"
    minutes = max(1, int(late.total_seconds() // 60))
    parts = ((minutes // 1440, "d"), (minutes // 60 % 24, "h"), (minutes % 60, "min"))
    said = [f"{number} {unit}" for number, unit in parts if number]
    return f"late by {' '.join(said[:2])}"
