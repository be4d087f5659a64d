"""A drawing that stands alone: SVG with its style, and what it shows in words."""

import base64
from dataclasses import dataclass
from html import escape
from pathlib import Path

from fuelcircuits.drawings.style import DEFINITIONS, style

__all__ = ["Picture", "picture"]

EDGE = 6
"""Empty rim around a drawing [units]."""


@dataclass(frozen=True)
class Picture:
    """A drawing: `svg` is the whole of it, `alt` says it in words."""

    svg: str
    alt: str

    def image(self) -> str:
        """Return the drawing as an HTML image that holds its own data."""
        data = base64.b64encode(self.svg.encode()).decode()
        return f'<img alt="{escape(self.alt)}" src="data:image/svg+xml;base64,{data}">'

    def save(self, path: str | Path) -> Path:
        """Write the SVG; return where it went."""
        path = Path(path)
        path.write_text(self.svg, encoding="utf-8")
        return path

    def _repr_mimebundle_(self, **_asked: object) -> dict[str, str]:
        """Show the drawing in a notebook and on paper, in the colours of the page."""
        return {"text/html": self.image(), "text/plain": self.alt}


def picture(shapes: str, size: tuple[float, float], alt: str, *, linked: bool = False) -> Picture:
    """Return shapes on a sheet of `size` [units] as a drawing with a text alternative.

    One that is `linked` is no image to a screen reader but a group, whose links it can reach.
    """
    wide, high = (round(side + 2 * EDGE) for side in size)
    role = "group" if linked else "img"
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="fd" width="{wide}" height="{high}" '
        f'viewBox="{-EDGE} {-EDGE} {wide} {high}" role="{role}" aria-label="{escape(alt)}" '
        'style="max-width: 100%; height: auto">'
        f"<style>{style(shapes)}</style>{DEFINITIONS}"
        f'<rect class="paper" x="{-EDGE}" y="{-EDGE}" width="{wide}" height="{high}"/>'
        f"{shapes}</svg>"
    )
    return Picture(svg, alt)
