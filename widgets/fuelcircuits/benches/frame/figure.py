"""A bench on paper: drawing, plot and readings as one SVG with a text alternative."""

import base64
import re
import textwrap
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from fuelcircuits.benches.frame.drawing import fill
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.pixels import png
from fuelcircuits.benches.frame.plot import vector
from fuelcircuits.benches.frame.scripts import STATIC
from fuelcircuits.benches.frame.state import State

__all__ = ["StaticFigure", "compose", "on_paper"]

SVG = "http://www.w3.org/2000/svg"
INK = "#1f2a33"
WIDTH, TOP, SIGHT, LINE, BODY = 900, 34, 330, 17, 12
WRAP = 112
"""Letters of the verdict on one line."""

ElementTree.register_namespace("", SVG)
ElementTree.register_namespace("xlink", "http://www.w3.org/1999/xlink")


@dataclass(frozen=True)
class StaticFigure:
    """A picture that stands alone: `svg` is the whole of it, `alt` says it in words."""

    svg: str
    alt: str

    def save(self, path: str | Path) -> Path:
        """Write the picture as SVG or, to a name in ``.png``, as PNG; return where it went."""
        path = Path(path)
        path.write_bytes(self.png() if path.suffix.lower() == ".png" else self.svg.encode("utf-8"))
        return path

    def png(self, zoom: float = 2.0) -> bytes:
        """Return the picture as PNG on white, `zoom` pixels to a unit.

        Raises
        ------
        PictureError
            If the extra ``pictures`` is not installed.
        """
        return png(self.svg, zoom)

    def _repr_mimebundle_(self, **_asked: Any) -> dict[str, str]:
        """Show the picture in a notebook and on paper.

        A notebook that nobody trusts yet shows no SVG, but an image in a text.
        """
        data = base64.b64encode(self.svg.encode()).decode()
        image = f'<img alt="{escape(self.alt)}" src="data:image/svg+xml;base64,{data}">'
        return {"image/svg+xml": self.svg, "text/markdown": image, "text/plain": self.alt}


def on_paper(
    title: str, drawing: str, now: State, pinned: State | None, *, at: float, system: System
) -> StaticFigure:
    """Return drawing, plot and readings at one moment, beside what is pinned."""
    then, old = now.at(at), pinned.at(at).chart if pinned else None
    plot = vector(then.chart, old, system, None if now.times is None else at)
    return compose(title, drawing, plot, then, system)


def compose(title: str, drawing: str, chart: str, state: State, system: System) -> StaticFigure:
    """Return title, drawing, plot, verdict and readings on one sheet."""
    lines = [f"{line.label}: {line.text(system)}" for line in state.readings]
    alt = " ".join([f"{title}.", state.verdict, state.drawn, state.plotted])
    rows = (len(lines) + 1) // 2
    said = textwrap.wrap(state.verdict, WRAP)
    table = TOP + SIGHT + (len(said) + 1) * LINE
    height = table + rows * LINE
    sheet = ElementTree.Element(f"{{{SVG}}}svg", viewBox=f"0 0 {WIDTH} {height}", role="img")
    sheet.set("width", str(WIDTH))
    sheet.set("height", str(height))
    sheet.set("color", INK)
    sheet.set("font-family", "system-ui, DejaVu Sans, sans-serif")
    sheet.set("aria-label", alt)
    ElementTree.SubElement(sheet, f"{{{SVG}}}style").text = _style()
    _words(sheet, title, (0, 18), 15)
    for x, width, picture in (
        (0, 450, fill(_on_paper(drawing), state.numbers)),
        (460, 440, ElementTree.fromstring(chart)),
    ):
        picture.attrib.update(x=str(x), y=str(TOP), width=str(width), height=str(SIGHT))
        sheet.append(picture)
    for number, words in enumerate(said):
        _words(sheet, words, (0, TOP + SIGHT + (number + 1) * LINE), BODY + 0.5)
    for number, words in enumerate(lines):
        column, row = divmod(number, rows)
        _words(sheet, words, (column * 460, table + row * LINE), BODY)
    return StaticFigure(ElementTree.tostring(sheet, encoding="unicode"), alt)


def _style() -> str:
    return _on_paper((STATIC / "drawing.css").read_text("utf-8"))


def _on_paper(text: str) -> str:
    """Return styles with every variable at what it is on paper; few programs but browsers ask."""
    text = re.sub(r"var\(--[\w-]+, ([^()]+)\)", r"\1", text)
    return re.sub(r"calc\(([\d.]+px) \* 1\)", r"\1", text)


def _words(sheet: ElementTree.Element, words: str, at: tuple[float, float], size: float) -> None:
    """Write `words`; what is larger than the body is bold."""
    text = ElementTree.SubElement(sheet, f"{{{SVG}}}text", x=f"{at[0]}", y=f"{at[1]}", fill=INK)
    text.set("font-size", f"{size}")
    text.set("font-weight", "bold" if size > BODY else "normal")
    text.text = words
