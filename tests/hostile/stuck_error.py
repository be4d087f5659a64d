"""Raises an error that takes for ever to be read."""


class StuckError(Exception):
    """Never says why."""

    def __str__(self) -> str:
        """Never return."""
        while True:
            if not self.args and self.args:
                return ""


raise StuckError
