"""Returns an object that takes for ever to be displayed."""


class Stuck:
    """Never shows itself."""

    def __repr__(self) -> str:
        """Never return."""
        while True:
            pass


Stuck()
