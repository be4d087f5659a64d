"""Sketch of the air horn, the bowl and the two ways by which the bowl may breathe."""

from fuelcircuits.drawings.canvas import Canvas, box
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["hoses"]


def hoses(booster: Number, cleaner: Number) -> Picture:
    """Return outside air, cleaner, horn, booster and bowl, with what each is below the next."""
    canvas = Canvas((0.0, 0.0), 1.0)
    canvas.channel([(330, 40), (330, 290)], [(450, 40), (450, 290)])
    canvas.shape(box(320, 40, 460, 60), "metal")
    canvas.words((470, 48), "air cleaner", "small halo", "start")
    canvas.hollow(box(60, 150, 230, 270))
    canvas.pool(box(60, 200, 230, 270))
    canvas.passage([(200, 160), (200, 100), (330, 100)], 14)
    canvas.passage([(90, 160), (90, 50), (30, 50)], 14)
    canvas.words((206, 84), "inside vent", "halo", "start")
    canvas.words((104, 62), "outside vent", "halo", "start")
    canvas.words((26, 34), "outside air", "small halo", "start")
    canvas.words((145, 236), "bowl", "small halo")
    canvas.words((390, 92), "air horn", "small halo")
    canvas.shape(box(372, 196, 408, 236), "metal")
    canvas.passage([(150, 250), (150, 285), (300, 285), (300, 216), (372, 216)], 8, "petrol")
    canvas.words((470, 216), "booster", "small halo", "start")
    canvas.arrow([(390, 4), (390, 34)], "air")
    canvas.measure((464, 66), (464, 106))
    canvas.words((472, 88), f"horn below outside: {cleaner.text}", "given halo", "start")
    canvas.measure((464, 118), (464, 206))
    canvas.words((472, 164), f"booster below horn: {booster.text}", "given halo", "start")
    alt = (
        f"Air comes through the cleaner into the air horn, which is {cleaner.text} below the "
        f"outside; the booster is {booster.text} below the horn. The bowl may breathe from the "
        "horn by the inside vent, or from outside by the outside vent."
    )
    return picture(canvas.drawn(), (720, 300), alt)
