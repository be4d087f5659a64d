"""Calls itself without end."""


def call() -> None:
    """Call itself."""
    call()


call()
