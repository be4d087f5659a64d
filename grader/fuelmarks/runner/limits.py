"""What one notebook may use before it is stopped."""

from dataclasses import dataclass, fields

from fuelcircuits.errors import positive

__all__ = ["Limits"]


@dataclass(frozen=True)
class Limits:
    """Limits for one notebook, in seconds, bytes and counts.

    Time is wall time, kept by the trusted side. Memory is what the notebook takes on top of the
    warm interpreter it starts from, over all the processes it starts.
    """

    cell_seconds: float = 20.0
    notebook_seconds: float = 120.0
    memory_bytes: int = 1 << 30
    scratch_bytes: int = 32 << 20
    output_bytes: int = 64 << 10
    processes: int = 32
    open_files: int = 128

    def __post_init__(self) -> None:
        """Refuse a limit that is not positive."""
        for field in fields(self):
            positive(field.name.replace("_", " "), getattr(self, field.name))
