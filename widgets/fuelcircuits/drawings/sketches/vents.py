"""Sketches of the bowl and the ways by which it breathes: by its vents, or by a leak."""

from fuelcircuits.drawings.canvas import Canvas, box
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["hoses", "leak", "shared"]


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


def _bowl() -> Canvas:
    """Return the bowl beside the air horn, with its inside vent."""
    canvas = Canvas((0.0, 0.0), 1.0)
    canvas.channel([(400, 20), (400, 250)], [(500, 20), (500, 250)])
    canvas.hollow(box(130, 110, 300, 240))
    canvas.pool(box(130, 180, 300, 240))
    canvas.passage([(270, 116), (270, 60), (400, 60)], 18)
    canvas.words((450, 120), "air horn", "small halo")
    canvas.words((215, 210), "bowl", "small halo")
    return canvas


def leak(horn: Number, hole: Number, vent: Number) -> Picture:
    """Return a bowl into which air leaks by its gasket and out of which it goes by its vent."""
    canvas = _bowl()
    canvas.passage([(90, 126), (136, 126)], 8)
    canvas.arrow([(50, 126), (122, 126)], "air")
    canvas.arrow([(270, 106), (270, 60), (394, 60)], "air")
    canvas.words((100, 98), f"leak {hole.text}", "given halo", "end")
    canvas.words((40, 150), "outside air", "small halo", "start")
    canvas.words((390, 36), f"vent {vent.text}", "given halo", "end")
    canvas.words((508, 60), f"horn below outside: {horn.text}", "given halo", "start")
    alt = (
        f"A bowl with a leak of {hole.text} to the air outside and an inside vent of {vent.text} "
        f"to the air horn, which is {horn.text} below the outside. Air runs in by the leak, "
        "through the bowl, and out by the vent."
    )
    return _moved(canvas, alt)


def shared(bore: Number, vapour: Number) -> Picture:
    """Return a bowl that boils, its vapour leaving by an outside and an inside vent."""
    canvas = _bowl()
    canvas.pool(box(131, 111, 299, 180), "vapour")
    canvas.passage([(160, 116), (160, 40), (60, 40)], 22)
    canvas.arrow([(160, 104), (160, 40), (56, 40)], "fuel")
    canvas.arrow([(270, 104), (270, 60), (394, 60)], "fuel")
    canvas.words((56, 16), "outside vent", "halo", "start")
    canvas.words((390, 36), f"inside vent {bore.text}", "given halo", "end")
    canvas.words((215, 146), f"boils off: {vapour.text}", "given halo")
    canvas.words((508, 60), "into the bore: how much?", "halo", "start")
    alt = (
        f"A hot bowl in which {vapour.text} boil off. The vapour leaves by two ways: the outside "
        f"vent, and an inside vent of {bore.text} into the air horn and so into the bore."
    )
    return _moved(canvas, alt)


def _moved(canvas: Canvas, alt: str) -> Picture:
    shapes = f'<g transform="translate(20 0)">{canvas.drawn()}</g>'
    return picture(shapes, (740, 260), alt)
