"""The sketch of a question: what is drawn, and which of the trainee's numbers it shows."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture

__all__ = ["Sketch"]


@dataclass(frozen=True)
class Sketch:
    """What is drawn beside a question, and with which givens.

    `draw` takes the text of the unit's card, empty where it has none, and the givens' numbers.
    """

    draw: Callable[[str, Sequence[Number]], Picture]
    givens: tuple[str, ...]

    def picture(self, card: str, texts: Mapping[str, str], values: Mapping[str, float]) -> Picture:
        """Return the sketch with a sheet's givens: as they are written, and in SI."""
        return self.draw(card, [Number(texts[name], values[name]) for name in self.givens])
