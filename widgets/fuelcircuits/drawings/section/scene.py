"""A section in the making: what is drawn, and what the numbers beside it name."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from fuelcircuits.drawings.canvas import Canvas, Point
from fuelcircuits.drawings.legend import Label, Side, atlas_numbers, legend, margins
from fuelcircuits.drawings.parts import part
from fuelcircuits.drawings.picture import Picture, picture
from fuelcircuits.drawings.section.layout import Layout, layout
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Scene", "Window"]

Window = tuple[float, float, float, float]
"""Left, top, right and foot of what is shown [mm]."""


@dataclass
class Scene:
    """A sheet with a rig's layout on it; `named` is in the order of the numbers."""

    rig: Rig
    at: Layout
    window: Window
    scale: float
    canvas: Canvas = field(init=False)
    named: list[Label] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Lay the sheet out."""
        self.canvas = Canvas((self.window[0], self.window[1]), self.scale)

    @classmethod
    def of(
        cls, rig: Rig, there: Iterable[str], *, bowl: float = 0.0, scale: float = 5.0
    ) -> "Scene":
        """Return a scene of the parts `there`, its window still the whole layout."""
        at = layout(rig, there, bowl)
        return cls(rig, at, (at.far - 8, at.top, at.bore + 11, at.flange + 3), scale)

    def within(self, **sides: float) -> "Scene":
        """Return the same scene with other sides of its window: left, top, right, foot."""
        names = ("left", "top", "right", "foot")
        old = dict(zip(names, self.window, strict=True)) | sides
        window = (old["left"], old["top"], old["right"], old["foot"])
        return Scene(self.rig, self.at, window, self.scale)

    def name(
        self,
        part_id: str,
        target: Point,
        side: Side = "left",
        called: str = "",
    ) -> None:
        """Give the next number to a part, at a side of the drawing."""
        number = str(len(self.named) + 1)
        words = called or part(part_id).name
        self.named.append(Label(number, words, self.canvas.at(target), side, part_id))

    def picture(self, title: str, link: str = "", *, of_atlas: bool = False) -> Picture:
        """Return the drawing with its numbers; `link` is the address of a part, with ``{}``.

        The numbers count along the way of air and fuel, or are those `of_atlas`.
        """
        named = atlas_numbers(self.named) if of_atlas else self.named
        left, top, right, foot = self.window
        wide, high = (right - left) * self.scale, (foot - top) * self.scale
        cut = f"fd-cut-{wide:.0f}-{high:.0f}"
        drawing = (
            f'<clipPath id="{cut}"><rect width="{wide:.1f}" height="{high:.1f}"/></clipPath>'
            f'<g clip-path="url(#{cut})">{self.canvas.drawn()}</g>'
        )
        names = legend(named, (wide, high), link)
        before, above, after, below = margins(named, wide)
        shapes = f'<g transform="translate({before} {above})">{drawing}{names}</g>'
        listed = ", ".join(f"{one.number} {one.name}" for one in named)
        size = (before + wide + after, above + high + below)
        return picture(shapes, size, f"{title}. Numbered: {listed}.", linked=bool(link))
