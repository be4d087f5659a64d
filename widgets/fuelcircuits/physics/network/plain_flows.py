"""Every flow of the network at one point, in plain floats.

The equations are those of `circuit_flows` and the modules behind it, one barrel standing for
all of them; a test holds the two together.
"""

from math import sqrt
from typing import Any, NamedTuple

from fuelcircuits.physics.circuits.high_speed import GRAVITY
from fuelcircuits.physics.network.air_pass import MOUTH
from fuelcircuits.physics.network.plain_flux import plain_flux
from fuelcircuits.physics.network.plain_parts import (
    plain_holes,
    plain_jet,
    plain_ring,
    plain_rod,
    plain_valve,
)
from fuelcircuits.physics.network.port_openings import COMMON, ends
from fuelcircuits.physics.network.problem import Points, Problem
from fuelcircuits.physics.network.stream import TRACE
from fuelcircuits.physics.openings.gas_flow import SMOOTHING

__all__ = ["Plain", "plain", "plain_flows"]

Pair = tuple[float, float]
"""Air and fuel [kg/s]."""

_FIRST, _SECOND = (each.tolist() for each in ends(1))
_INWARD = (1.0, 1.0, -1.0, -1.0)  # slot above, valve, slot below, screw


class Plain(NamedTuple):
    """A network whose barrels are alike, and one operating point of it."""

    low: Any  # `LowSpeed`, `HighSpeed` and `Power` of one barrel
    high: Any
    rod: Any
    parts: Any  # `Parts`, numbers or lists of them
    at: Any  # `Points`, likewise
    gas: float  # J/kg, gas constant times temperature
    density: float  # kg/m3, of the fuel
    weight: float  # N/m3
    gain: float  # of the booster
    lost: float  # share of the venturi's drop that is not recovered [1]


class _Jets(NamedTuple):
    main: float
    back: float
    low_speed: Pair
    power_share: float


def plain(problem: Problem, points: Points) -> Plain:
    """Return a network whose barrels are alike, and its one point, in floats."""
    low, high, rod = problem.sections
    at = Points._make(_floats(each) for each in points)
    density: Any = at.fuel_density
    gas: Any = at.gas_constant * at.temperature
    return Plain(
        low=low,
        high=high,
        rod=rod,
        parts=type(problem.parts)._make(_floats(each) for each in problem.parts),
        at=at,
        gas=gas,
        density=density,
        weight=GRAVITY * density,
        gain=problem.gain,
        lost=1.0 - problem.air_path.venturi_recovery,
    )


def plain_flows(of: Plain, unknowns: list[float]) -> tuple[list[float], float]:
    """Return every flow of the network at one point.

    Parameters
    ----------
    of
        The network and its point.
    unknowns
        Pressures [Pa], in the order of `balance`.

    Returns
    -------
    flows, power_share
        Flows [kg/s] in the order of `balance.stacked`, and the last entry of `Flows`.

    References
    ----------
    `fuelcircuits.physics.network.circuit_flows`.
    """
    horn, choke, manifold, bowl, venturi, well, tube, mix, chamber = unknowns
    at, parts, weight = of.at, of.parts, of.weight
    booster = choke * (venturi / choke) ** of.gain
    throttle = choke - of.lost * (choke - venturi)
    foot = min(well + weight * of.low.tube_depth, mix)
    bottom = min(well + weight * of.high.well_depth, booster)
    shared = at.pressure, at.canister, horn, choke, manifold, bowl
    rows = *shared, venturi, well, tube, mix, chamber, booster, throttle, foot, bottom
    air = [
        area * plain_flux(0.0, rows[first], rows[second], of.gas, of.density) if area else 0.0
        for area, first, second in zip(at.areas, _FIRST, _SECOND, strict=True)
    ]
    lift = plain_valve(of.low, choke - chamber)
    main_venturi, bleed, bypass, idle_air, past, pull_over, backflow, *alone = air[COMMON:]
    pull_over *= _mouth(mix - foot, weight)
    backflow *= _mouth(booster - bottom, weight)
    alone[1] *= lift
    jets = _jets(of, rows, backflow)
    holes = parts.bled * plain_holes(
        of.high.hole_bore, parts.depths, tube - well, weight, tube / of.gas
    )
    gas = holes + pull_over
    lifted = jets.low_speed
    entering = max(bypass, 0.0) + max(idle_air, 0.0) + lifted[0] + lifted[1] + TRACE
    economizer = _economizer(of, mix, chamber, (lifted[1] + TRACE) / entering)
    nozzle, carried = _nozzle(of, well, booster, surplus=max(jets.main - lifted[1], 0.0), gas=gas)
    share = (lifted[1] + TRACE) / (entering - min(sum(economizer), 0.0))
    by = _spilled(of, bypass, parts.bypass, choke, mix=mix, share=share)
    idle = _spilled(of, idle_air, at.idle_air, horn, mix=mix, share=share)
    above, valve, below, screw = _ports(of, rows, alone, economizer, lift)
    cleaner, past_choke, leak, inside, *vents = air[:COMMON]
    shown = [cleaner, past_choke, leak, inside, sum(vents) + at.vapour]
    shown += [at.demand_rate * manifold - at.demand_loss, main_venturi, past, bleed, holes]
    shown += [jets.main, jets.back, *lifted, pull_over, *by, *idle, *economizer]
    shown += [*above, *valve, *below, *screw, *nozzle, carried, gas - carried, backflow]
    return shown, jets.power_share


def _floats(value: Any) -> Any:
    """Return the one number, or the list of those along the first axis."""
    if isinstance(value, float):
        return value
    return value.item() if value.size == 1 and value.ndim < 4 else value.reshape(-1).tolist()


def _mouth(drive: float, weight: float) -> float:
    return min(drive / (weight * MOUTH), 1.0)


def _jets(of: Plain, rows: tuple[float, ...], backflow: float) -> _Jets:
    """Return what `fuel_jets.fuel_jets` does."""
    outside, _, _, _, manifold, bowl, _, well, _, mix, *_ = rows
    at, parts, bore = of.at, of.parts, of.high.jet_bore
    rod = 0.0 if of.rod is None else plain_rod(of.rod, outside - manifold)
    ring, hole = plain_ring(bore, rod), (parts.idle_jet, of.low.jet_bore)
    drop = bowl + of.weight * at.bowl_level - well
    up = max(well - of.weight * of.low.lift - mix, 0.0)
    big, small = zip(parts.slender, parts.ultimate, strict=True)
    main = plain_jet(ring, big, drop, of.density, at.viscosity)
    lifted = plain_jet(hole, small, up, of.density, at.viscosity)
    back = 0.0
    if main < 0.0:
        still = (SMOOTHING**2 / (SMOOTHING**2 + drop * drop)) ** 2
        back = (1.0 - still) * sqrt(well / of.gas / of.density) * -main
        main *= still
    share = 1.0 - parts.lean / ring[0]
    if backflow <= 0.0:
        return _Jets(main, back, (0.0, lifted), share)
    supply = max(main, 0.0) + TRACE
    wet = supply / (supply + backflow)
    total = lifted / sqrt(_volume(of, wet, well) * of.density)
    return _Jets(main, back, ((1.0 - wet) * total, wet * total), share)


def _volume(of: Plain, share: float, pressure: float) -> float:
    """Return the volume of a kilogram of the mixture [m3/kg]."""
    return (1.0 - share) * of.gas / pressure + share / of.density


def _passed(of: Plain, area: float, share: float, first: float, second: float) -> Pair:
    """Return air and fuel through an opening."""
    total = area * plain_flux(share, first, second, of.gas, of.density) if area else 0.0
    return total - share * total, share * total


def _economizer(of: Plain, mix: float, chamber: float, mixed: float) -> Pair:
    first = mix + GRAVITY * of.low.fall / _volume(of, mixed, mix)
    return _passed(of, of.parts.economizer, mixed if first > chamber else 0.0, first, chamber)


def _nozzle(
    of: Plain, well: float, booster: float, *, surplus: float, gas: float
) -> tuple[Pair, float]:
    """Return air and fuel out of the nozzle, and the air that the fuel carries along."""
    together = surplus + gas + TRACE
    first = max(well - of.weight * of.high.lip, booster)
    area = of.parts.nozzle * _mouth(first - booster, of.weight)
    flow = _passed(of, area, together / (together + gas), first, booster)
    return flow, surplus * gas / together


def _spilled(
    of: Plain, air: float, area: float, outside: float, *, mix: float, share: float
) -> Pair:
    """Return what a bleed draws in; where it runs backwards, the mixture it spits."""
    if air >= 0.0:
        return air, 0.0
    return _passed(of, area, share, outside, max(mix, outside))


def _ports(
    of: Plain, rows: tuple[float, ...], alone: list[float], economizer: Pair, lift: float
) -> list[Pair]:
    """Return what `mixing.ports` does."""
    inward = [max(sign * air, 0.0) for sign, air in zip(_INWARD, alone, strict=True)]
    entering = max(sum(economizer), 0.0) + sum(inward) + TRACE
    share = (max(economizer[1], 0.0) + TRACE) / entering
    chamber, throttle, choke, manifold = rows[10], rows[12], rows[3], rows[4]
    found = []
    beyond = throttle, choke, manifold, manifold
    widths = of.at.areas[-4], of.at.areas[-3] * lift, of.at.areas[-2], of.at.areas[-1]
    for sign, drawn, end, area in zip(_INWARD, inward, beyond, widths, strict=True):
        air, fuel = _passed(of, area, share, max(chamber, end), end)
        found.append((sign * (drawn - air), -sign * fuel))
    return found
