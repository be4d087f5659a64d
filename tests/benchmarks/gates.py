"""Both rigs against the gates and the trade's bands, as tables: python -m tests.benchmarks.gates.

Gates A to J are what a driver would notice of film, pump, fire and crankshaft, K that nothing is
lost; the tests hold them in `tests/physics/motion/test_gates.py`. The table beside says by how
much. Bounds are judged; the bands are the trade's, from memory.
"""

from collections.abc import Iterator, Sequence
from math import pi

from fuelcircuits.physics.network.solving import curb_idle, solve

from course.site.maps import AIR, PETROL, table
from tests.physics.motion import test_gates as gates
from tests.physics.motion.journeys import RIGS_BY_NAME, RPM, freely, tipped, town, warmed
from tests.physics.motion.test_gates import mixtures

NAMES = ("plover", "dunlin")
Row = tuple[str, str, str]


def main() -> None:
    """Print both tables."""
    columns = [list(_gates(name)) for name in NAMES]
    print("| gate | wanted | " + " | ".join(NAMES) + " |\n| --- | --- | --- | --- |")
    for across in zip(*columns, strict=True):
        gate, wanted, _ = across[0]
        print(f"| {gate} | {wanted} | " + " | ".join(each[2] for each in across) + " |")
    print("\n" + "\n".join([*table(), *_jumps()]))


def _gates(name: str) -> Iterator[Row]:
    """Yield what each gate asks and what a rig gives."""
    for rpm in gates.SPEEDS:
        run = gates.dead_pump(name, rpm)
        found = f"{max(mixtures(run)):.2f}, {gates.lean_for(run):.2f} s"
        yield f"A no pump, 2 to 50 % at {rpm} rpm: peak, time above 1.15", _peaks(rpm), found
    for rpm in (650, 800, 1000, 1500, 2200, 3000):
        yield _within(f"C with pump, 2 to 50 % at {rpm} rpm", "0.75 to 1.15", (0.5, rpm), name)
    for rpm in (1000, 1500, 2200):
        yield _within(f"D with pump, 2 to 20 % at {rpm} rpm", "0.70 to 1.15", (0.2, rpm), name)
    for pedal, rpm in ((0.3, 1500), (0.3, 2500), (0.3, 3500), (0.5, 2500)):
        run = tipped(name, pedal, 0.0, rpm)
        rich = max((now.time for now in run if now.burning.mixture < 0.75), default=0.3) - 0.3
        told = f"{min(mixtures(run)):.2f}, {rich:.2f} s"
        yield f"E lift {pedal:.0%} at {rpm} rpm: least, until 0.75", "> 0.45, < 1.6 s", told
    yield from _free(name)
    yield from _cold(name)
    yield "K fuel metered less fuel drawn and stored, over all", "< 1e-6", f"{_lost(name):.0e}"


def _peaks(rpm: int) -> str:
    wanted = {700: "1.45 to 1.75", 2200: "< 1.30", 3000: "< 1.25, < 0.1 s"}
    return wanted.get(rpm, "falling (B)")


def _within(gate: str, wanted: str, to: tuple[float, float], name: str) -> Row:
    found = mixtures(tipped(name, 0.02, *to))
    return gate, wanted, f"{min(found):.2f} to {max(found):.2f}"


def _free(name: str) -> Iterator[Row]:
    """Yield the gates at a free crankshaft."""
    for gate, pedal, rpm, extra, loaded in (
        ("F floored from idle, low gear", 0.0, 690, 1.5, False),
        ("G floored at 800 rpm, top gear", 0.03, 800, 8.0, True),
    ):
        for pump in (True, False):
            run = freely(name, pedal, rpm, pump=pump, extra=extra, loaded=loaded)
            wanted = "sag < 1 N m" if pump else "sag > 20 N m, > 0.3 s"
            told = f"{gates.sag(run):.0f} N m, {gates.sags_for(run):.2f} s"
            yield f"{gate}, {'' if pump else 'no '}pump", wanted, told
    ends = [
        gates.gained(freely(name, 0.05, 3000, pump=pump, extra=8.0, loaded=True)) / RPM
        for pump in (True, False)
    ]
    yield (
        "H floored at 3000 rpm: gain with and without pump",
        "alike",
        f"{ends[0]:.0f}, {ends[1]:.0f} rpm",
    )


def _cold(name: str) -> Iterator[Row]:
    """Yield the gates of a cold wall, the old film, and cold starts."""
    sound, dead = (
        freely(name, 0.03, 1000, pump=pump, extra=8.0, loaded=True, coolant=293.15)
        for pump in (True, False)
    )
    told = f"{max(mixtures(sound)):.2f}, {max(mixtures(dead)):.2f}"
    yield "I wall at 20 degC, floored at 1000 rpm: peak with and without", "< 1.3, > 1.45", told
    slow, fast = (
        max(mixtures(tipped(name, 0.02, 0.5, rpm, pump=False, old_film=True)))
        for rpm in (700, 3000)
    )
    yield "J old film, no pump: peak at 700 and 3000 rpm", "trend wrong", f"{slow:.2f}, {fast:.2f}"
    for celsius in (-20.0, 0.0, 15.0, 30.0):
        run = [now for now in warmed(name, 273.15 + celsius) if now.time > 4.5]
        burnt = [now.burning.burnt for now in run]
        fires = min(now.burning.fires for now in run)
        told = f"{min(burnt):.2f} to {max(burnt):.2f}, {fires:.2f}"
        yield f"start at {celsius:.0f} degC: burnt, least share firing", "0.65 to 1.25", told


def _lost(name: str) -> float:
    """Return how far the fuel of a drive through town is from adding up, as a share of it [1]."""
    run = town(name)
    parts = ("film", "charge", "puddle")
    grown = sum(getattr(run[-1], each) - getattr(run[0], each) for each in parts)
    books = run[-1].books
    lost: float = abs(books.metered + books.purged - books.drawn - grown) / books.metered
    return lost


def _jumps() -> list[str]:
    """Return the row of the largest rise of the ratio within 1.25 degrees of plate."""
    told = []
    for name in NAMES:
        rig, stop = RIGS_BY_NAME[name], curb_idle(RIGS_BY_NAME[name], AIR, PETROL).throttle_angle
        angles = [stop + (0.5 + 0.25 * step) * pi / 180 for step in range(30)]
        worst = max(
            _rise([solve(rig, AIR, PETROL, rpm * RPM, each).ratio for each in angles])
            for rpm in (1000, 1300, 1600)
        )
        told.append(f"{worst:.2f}")
    return ["| largest rise within 1.25 deg, 1000 to 1600 rpm | < 1.5 | " + " | ".join(told) + " |"]


def _rise(ratios: Sequence[float]) -> float:
    """Return the largest rise over five steps."""
    return max(after - before for before, after in zip(ratios, ratios[5:], strict=False))


if __name__ == "__main__":
    main()
