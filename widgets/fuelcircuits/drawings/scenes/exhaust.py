"""From the mixture to the analyser, numbered along the way of the gas."""

from fuelcircuits.drawings.canvas import Canvas, box
from fuelcircuits.drawings.section.layout import layout
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]

HEAD, PIPE = 110.0, 70.0
"""Heights of the cylinder head's face and of the pipes' axes."""


def scene(rig: Rig) -> Scene:
    """Return the numbered drawing, which is the same for every rig."""
    sheet = Scene(rig, layout(rig, (), 0.0), (0.0, 0.0, 560.0, 300.0), 1.0)
    canvas = sheet.canvas
    canvas.casting(box(70, 40, 230, 290))
    canvas.passage([(0, PIPE), (112, PIPE), (112, HEAD + 2)], 26)
    canvas.passage([(188, HEAD + 2), (188, PIPE), (430, PIPE)], 26)
    canvas.passage([(330, PIPE + 60), (330, PIPE + 10)], 8)
    canvas.hollow(box(92, HEAD, 208, 320))
    _engine(canvas)
    canvas.arrow([(10, PIPE), (112, PIPE), (112, HEAD + 34)], "fuel")
    canvas.arrow([(188, HEAD + 30), (188, PIPE), (420, PIPE)], "gas")
    canvas.arrow([(330, PIPE + 80), (330, PIPE + 4)], "air")
    canvas.line([(400, PIPE), (470, PIPE), (470, 142)], "line", "words")
    canvas.disc((400, PIPE), 4, "solid", "words")
    canvas.shape(box(430, 142, 540, 252), "part")
    for row, gas in enumerate(("CO₂", "CO", "O₂", "HC")):
        canvas.words((462, 164 + 24 * row), gas)
        canvas.shape(box(485, 156 + 24 * row, 526, 172 + 24 * row), "part", "ways")
    sheet.name("intake", (24, PIPE))
    sheet.name("intake-valve", (112, HEAD + 12))
    sheet.name("cylinder", (120, 180))
    sheet.name("spark-plug", (150, 46))
    sheet.name("exhaust-valve", (190, HEAD + 12), "right")
    sheet.name("exhaust-pipe", (262, PIPE - 4), "right")
    sheet.name("leak", (331, PIPE + 64), "right")
    sheet.name("probe", (402, PIPE), "right")
    sheet.name("analyser", (520, 237), "right")
    return sheet


def _engine(canvas: Canvas) -> None:
    """Draw valves, plug, piston and rod."""
    for x in (112, 188):
        canvas.shape(
            [
                (x - 14, HEAD + 14),
                (x + 14, HEAD + 14),
                (x + 3, HEAD + 6),
                (x + 3, 26),
                (x - 3, 26),
                (x - 3, HEAD + 6),
            ],
            "metal",
        )
    canvas.shape(box(144, 30, 156, HEAD + 2), "part")
    canvas.line([(150, HEAD + 2), (150, HEAD + 8), (158, HEAD + 12)])
    canvas.shape(box(94, 214, 206, 264), "metal")
    for height in (222, 230):
        canvas.line([(94, height), (206, height)], "thin")
    canvas.shape([(144, 244), (156, 244), (162, 310), (138, 310)], "part")
    canvas.disc((150, 244), 7)
