"""The manifold's pressure from stroke to stroke, when one cylinder takes less than the others."""

from math import exp, pi

from fuelcircuits.physics.engine.engine import Engine, volumetric_efficiency

__all__ = ["cycle", "strokes", "swing"]

SLOTS = 24
"""Steps into which one cylinder's share of the cycle is divided."""


def cycle(speed: float) -> float:
    """Return how long the two turns of a cycle last [s] at a crankshaft speed [rad/s]."""
    return 4 * pi / speed


def strokes(engine: Engine, speed: float, pressure: float) -> list[float]:
    r"""Return the manifold pressure along one cycle, the weak cylinder's turn first.

    .. math:: \frac{dp}{dt} = \frac{\bar p - g p}{\tau}, \qquad
              \tau = \frac{4 \pi s}{\eta \omega}

    Parameters
    ----------
    engine
        Cylinders, manifold share s, breathing; `dead_cylinders` is the part of one that takes
        nothing.
    speed
        Crankshaft speed [rad/s].
    pressure
        Mean pressure of the cycle [Pa].

    Returns
    -------
    Pressures [Pa], evenly spread from the cycle's beginning to its end, both included.

    Notes
    -----
    g is 1, and less by what is dead while the weak cylinder draws. The strokes follow one
    another without a gap, and air comes in evenly, as past a throttle at the speed of sound:
    first principles for a manifold of one pressure. A damped gauge shows less.
    """
    count = round(engine.cylinders) * SLOTS
    step = cycle(speed) / count
    filling = 4 * pi * engine.manifold_share / (volumetric_efficiency(engine, speed) * speed)
    drawing = 1 - min(engine.dead_cylinders, 1.0)
    weak, whole = (_step(share, step / filling) for share in (drawing, 1.0))
    first = _settled(weak, whole, count)
    along = [first]
    for slot in range(count):
        kept, gained = weak if slot < SLOTS else whole
        along.append(kept * along[-1] + gained)
    mean = sum(along[1:]) / count
    return [pressure * each / mean for each in along]


def _step(share: float, part: float) -> tuple[float, float]:
    """Return factor and gain of one step of the equation, solved exactly."""
    kept = exp(-share * part)
    return kept, part if not share else (1 - kept) / share


def _settled(weak: tuple[float, float], whole: tuple[float, float], count: int) -> float:
    """Return the pressure at which a cycle ends as it began."""
    factor, gain = 1.0, 0.0
    for slot in range(count):
        kept, gained = weak if slot < SLOTS else whole
        factor, gain = kept * factor, kept * gain + gained
    return gain / (1 - factor)


def swing(engine: Engine, speed: float, pressure: float) -> float:
    """Return how far an undamped needle swings [Pa]; the arguments are those of `strokes`."""
    if not engine.dead_cylinders:
        return 0.0
    along = strokes(engine, speed, pressure)
    return max(along) - min(along)
