"""Work that takes long, done step by step, so that something else can be heard in between."""

from collections.abc import Callable, Generator, Hashable
from typing import Generic, ParamSpec, TypeAlias, TypeVar

__all__ = ["Kept", "March", "finished"]

Asked = ParamSpec("Asked")

Result = TypeVar("Result")
March: TypeAlias = Generator[float, None, Result]
"""Steps on the way to a result; each yields what share is done [1]."""
MOST = 64
"""Results that are kept of one march."""


def finished(march: March[Result]) -> Result:
    """Go through all steps that are left, and return the result."""
    while True:
        try:
            next(march)
        except StopIteration as end:
            result: Result = end.value
            return result


class Kept(Generic[Asked, Result]):
    """A march whose latest results are kept: what is known takes no step."""

    def __init__(self, march: Callable[Asked, March[Result]]) -> None:
        self._march, self._known = march, dict[Hashable, Result]()

    def __call__(self, *of: Asked.args, **also: Asked.kwargs) -> March[Result]:
        """Work out what is not known yet."""
        key = of, *sorted(also.items())
        if key in self._known:
            return self._known[key]
        self._known[key] = result = yield from self._march(*of, **also)
        if len(self._known) > MOST:
            del self._known[next(iter(self._known))]
        return result

    def cache_clear(self) -> None:
        """Forget them all."""
        self._known.clear()
