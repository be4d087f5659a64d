"""Sketches of holes and of what stands in them: ring, seat, ball, flap, plunger, cone."""

from fuelcircuits.drawings.canvas import Canvas, box, ring
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["ball", "flap", "plunger", "ring_open", "seat"]


def ring_open(jet: Number, rod: Number) -> Picture:
    """Return a rod in a jet from above: the ring between them is open."""
    canvas, middle, radius = Canvas((0.0, 0.0), 1.0), (150.0, 120.0), 92.0
    inner = radius * rod.value / jet.value
    canvas.shape(ring(middle, radius + 22), "jet", "ground")
    canvas.hollow(ring(middle, radius), "petrol")
    canvas.disc(middle, inner, "metal")
    canvas.measure((middle[0] - radius, 20 + 222), (middle[0] + radius, 242))
    for x in (middle[0] - radius, middle[0] + radius):
        canvas.line([(x, middle[1]), (x, 248)], "thin")
    canvas.words((middle[0], 258), f"jet {jet.text}", "given halo")
    canvas.measure((middle[0] - inner, middle[1]), (middle[0] + inner, middle[1]))
    canvas.words((middle[0], middle[1] - 14), rod.text, "given halo")
    canvas.line(
        [
            (middle[0] + (radius + inner) / 2 * 0.7, middle[1] - (radius + inner) / 2 * 0.7),
            (280, 40),
        ],
        "thin",
    )
    canvas.words((284, 36), "open ring", "halo", "start")
    alt = f"A rod of {rod.text} in a jet of {jet.text}, seen from above; the ring between is open."
    return picture(canvas.drawn(), (360, 270), alt)


def seat(bore: Number) -> Picture:
    """Return a needle that shuts its seat, with the fuel that pushes on it."""
    canvas = Canvas((0.0, 0.0), 1.0)
    canvas.hollow(box(126, 0, 194, 110), "petrol")
    for left, right in ((60, 126), (194, 260)):
        canvas.shape(box(left, 4, right, 120), "paper")
        canvas.shape(box(left, 4, right, 120), "jet")
    canvas.shape([(160, 62), (204, 138), (204, 220), (116, 220), (116, 138)], "metal")
    canvas.measure((126, 30), (194, 30))
    canvas.words((160, 46), bore.text, "given halo")
    canvas.arrow([(160, 2), (160, 20)], "fuel", "words")
    canvas.words((270, 40), "pump's pressure", "halo", "start")
    canvas.words((270, 170), "bowl: air", "halo", "start")
    canvas.words((160, 180), "needle", "halo")
    alt = f"A needle shuts a seat of {bore.text} bore from below; the fuel's pressure is above it."
    return picture(canvas.drawn(), (390, 226), alt)


def ball(size: Number, bore: Number) -> Picture:
    """Return a ball that a spring holds on its seat from below."""
    canvas, unit = Canvas((0.0, 0.0), 1.0), 26e3
    half, radius = bore.value * unit / 2, size.value * unit / 2
    canvas.casting(box(40, 20, 160 - half, 80))
    canvas.casting(box(160 + half, 20, 280, 80))
    drop = max(radius**2 - half**2, 0.0) ** 0.5
    canvas.disc((160, 80 + drop), radius, "metal")
    foot = 80 + drop + radius
    canvas.line([(160 + (16 if n % 2 else -16), foot + 10 * n) for n in range(7)])
    canvas.measure((160 - half, 30), (160 + half, 30))
    canvas.words((160, 46), bore.text, "given halo")
    canvas.line([(160 + radius * 0.7, 80 + drop + radius * 0.7), (262, foot + 20)], "thin")
    canvas.words((266, foot + 22), f"ball {size.text}", "given halo", "start")
    canvas.words((290, 50), "bore: air", "halo", "start")
    canvas.words((196, foot + 52), "chamber: vacuum", "halo", "start")
    alt = (
        f"A ball of {size.text} rests from below on a seat of {bore.text} bore, held by a spring. "
        "Above it is the air of the bore, below it the chamber with its vacuum."
    )
    return picture(canvas.drawn(), (390, foot + 66), alt)


def flap(bore: Number, lift: Number) -> Picture:
    """Return a flap lifted over its bore."""
    canvas, unit = Canvas((0.0, 0.0), 1.0), 160.0 / bore.value
    half, gap = 80.0, max(lift.value * unit, 6.0)
    canvas.casting(box(40, 120, 200 - half, 190), "cover")
    canvas.casting(box(200 + half, 120, 360, 190), "cover")
    canvas.shape(box(200 - half - 26, 120 - gap - 14, 200 + half + 26, 120 - gap), "metal")
    canvas.shape(box(192, 20, 208, 120 - gap - 14), "metal")
    canvas.measure((200 - half, 172), (200 + half, 172))
    canvas.words((200, 158), bore.text, "given halo")
    canvas.line([(200 + half + 4, 120 - gap / 2), (372, 120 - gap / 2 - 20)], "thin")
    canvas.words((376, 120 - gap / 2 - 22), lift.text, "given halo", "start")
    for side in (-1, 1):
        canvas.arrow(
            [
                (200 + side * 50, 186),
                (200 + side * 50, 124),
                (200 + side * (half + 30), 120 - gap / 2),
            ],
            "fuel",
        )
    canvas.words((376, 112), "curtain", "small halo", "start")
    alt = (
        f"A flap stands {lift.text} above a bore of {bore.text}; vapour passes the bore and then "
        "the gap all round."
    )
    return picture(canvas.drawn(), (450, 200), alt)


def plunger(bore: Number, stroke: Number) -> Picture:
    """Return a pump's plunger at the top and, dashed, at the foot of its stroke."""
    canvas, unit = Canvas((0.0, 0.0), 1.0), 120.0 / max(bore.value, stroke.value)
    half, travel = bore.value * unit / 2, stroke.value * unit
    top, foot = 70.0, 70.0 + 24 + travel + 30
    canvas.casting(box(60, 30, 340, foot + 34))
    canvas.hollow(box(200 - half, 10, 200 + half, foot))
    canvas.pool(box(200 - half, top + 24, 200 + half, foot))
    canvas.shape(box(200 - half + 2, top, 200 + half - 2, top + 24), "metal")
    canvas.shape(box(194, 4, 206, top), "metal")
    canvas.shape(box(200 - half + 2, top + travel, 200 + half - 2, top + 24 + travel), "hidden")
    canvas.measure((200 - half, foot - 10), (200 + half, foot - 10))
    canvas.words((200, foot + 16), bore.text, "given halo")
    canvas.measure((200 + half + 14, top + 24), (200 + half + 14, top + 24 + travel))
    canvas.words((200 + half + 22, top + 24 + travel / 2), stroke.text, "given halo", "start")
    alt = (
        f"A plunger of {bore.text} diameter in its well, drawn at the top; dashed, {stroke.text} "
        "lower."
    )
    return picture(canvas.drawn(), (400, foot + 40), alt)
