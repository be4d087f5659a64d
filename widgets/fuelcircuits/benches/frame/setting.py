"""A setting of a bench: an attribute that is checked when it is set, and then shown."""

from collections.abc import Callable, Mapping
from typing import Any, ClassVar, Generic, Self, TypeVar, overload

from fuelcircuits.benches.frame.measure import System
from fuelcircuits.errors import RangeError

__all__ = ["Setting", "Settled", "Side", "Watcher"]

T = TypeVar("T")
Watcher = Callable[[Mapping[str, Any]], None]


class Setting(Generic[T]):
    """What a bench stands at in one respect.

    On the class it is the setting itself, on a bench what that bench has it set to; setting the
    attribute is `Settled.put` with one name.

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
    def __get__(self, bench: "Settled", owner: type) -> T: ...

    def __get__(self, bench: "Settled | None", owner: type) -> Self | T:
        """Return what the bench has it set to."""
        return self if bench is None else bench.settings[self.name]

    def __set__(self, bench: "Settled", value: T) -> None:
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


class Settled:
    """What has settings: they are put together, and whoever watches hears of every change."""

    every: ClassVar[Mapping[str, Setting[Any]]]
    """Every setting by name, those of the classes above first."""

    def __init_subclass__(cls) -> None:
        """Collect the settings that the class and those above it list."""
        parts = [vars(part).items() for part in reversed(cls.__mro__)]
        cls.every = {
            name: each for part in parts for name, each in part if isinstance(each, Setting)
        }

    def __init__(self) -> None:
        self.settings = {name: each.start for name, each in self.every.items()}
        self._watchers: list[Watcher] = []

    def put(self, **settings: Any) -> None:
        """Set several settings, and show that once."""
        before = self.settings
        checked = {name: self.every[name].checked(value) for name, value in settings.items()}
        self.settings = before | checked
        if self.settings != before:
            for watcher in self._watchers:
                watcher(before)

    def watch(self, watcher: Watcher) -> None:
        """Let `watcher` hear of every change; it is given the settings as they were before."""
        self._watchers.append(watcher)
