"""A setting of a bench: an attribute that is checked when it is set, and then shown."""

from typing import TYPE_CHECKING, Any, Generic, Self, TypeVar, overload

from fuelcircuits.benches.frame.measure import System
from fuelcircuits.errors import RangeError

if TYPE_CHECKING:
    from fuelcircuits.benches.frame.bench import Bench

__all__ = ["Setting", "Side"]

T = TypeVar("T")


class Setting(Generic[T]):
    """What a bench stands at in one respect.

    On the class it is the setting itself, on a bench what that bench has it set to; setting the
    attribute is `Bench.put` with one name.

    Parameters
    ----------
    start
        The value before anybody sets it.
    """

    name: str

    def __init__(self, start: T) -> None:
        self.start = start

    def __set_name__(self, owner: type, name: str) -> None:
        """Learn the name of the attribute."""
        self.name = name

    @overload
    def __get__(self, bench: None, owner: type) -> Self: ...

    @overload
    def __get__(self, bench: "Bench", owner: type) -> T: ...

    def __get__(self, bench: "Bench | None", owner: type) -> Self | T:
        """Return what the bench has it set to."""
        return self if bench is None else bench.settings[self.name]

    def __set__(self, bench: "Bench", value: T) -> None:
        """Set it, and let everybody know who shows the bench."""
        bench.put(**{self.name: value})

    def checked(self, value: Any) -> T:
        """Return `value` as it is kept, or raise `RangeError`."""
        kept: T = value
        return kept


class Side(Setting[System]):
    """The side of the units switch."""

    def checked(self, value: Any) -> System:
        """Refuse all but the two sides."""
        if value not in ("SI", "US"):
            raise RangeError(f"{self.name} must be SI or US, got {value!r}")
        side: System = value
        return side
