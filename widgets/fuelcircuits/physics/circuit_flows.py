"""Every flow of the network for given pressures.

Each flow is computed once and enters both its ends, so what one part loses another gains, air
and fuel apart. What a part passes on is the even mixture of all that enters it. That mixture
need not be an unknown: fuel enters the mix only by the low-speed jet and the chamber only by
the economizer, so the shares follow from the flows one after the other.

Standing columns of fuel hold: the nozzle passes nothing until the well stands above its lip;
the low-speed jet turns round only when air has pushed the fuel out of the foot of its tube;
air runs back into the well from the booster only when the well is empty. Each of these mouths
opens little by little while the fuel's surface crosses it. The nozzle's fuel S
carries the air :math:`a S / (a + S)` along, nearly all where fuel is plenty and none where the
fuel stands; the rest rises through it in bubbles of its own.
Air alone enters the idle ports from bore or manifold: the fuel there keeps to the stream.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics import power
from fuelcircuits.physics.engine import air_demand
from fuelcircuits.physics.high_speed import GRAVITY, hole_flow, jet_flow
from fuelcircuits.physics.low_speed import valve_area
from fuelcircuits.physics.problem import PORT_DISCHARGE, Points, Problem
from fuelcircuits.physics.two_phase import mass_flux, specific_volume

__all__ = ["Flows", "Pressures", "Stream", "flows", "pressures"]

Floats = NDArray[np.float64]
Openings = Sequence[tuple[Floats | float, Floats, Floats]]

_MOUTH = 2.5e-3
"""Height over which nozzle lip, tube foot and well floor open as the fuel crosses them [m]."""
_TRACE = 1e-14  # kg/s, keeps a share defined where nothing flows


class Pressures(NamedTuple):
    """Absolute pressures [Pa]: (copies, points) where shared, else barrels before them."""

    horn: Floats
    choke: Floats  # below its plate
    manifold: Floats
    bowl: Floats
    venturi: Floats  # throat of the main venturi
    well: Floats  # at the height of the set fuel level
    tube: Floats  # air behind the well's bleed holes
    mix: Floats  # where fuel and air of the low-speed circuit meet
    chamber: Floats  # behind the idle ports
    booster: Floats  # throat of the booster
    throttle: Floats  # above the throttle plate


class Stream(NamedTuple):
    """Air and fuel that flow together [kg/s], with the sign of the flow."""

    air: Floats
    fuel: Floats

    @property
    def total(self) -> Floats:
        """Both together."""
        return self.air + self.fuel


class Flows(NamedTuple):
    """Every flow [kg/s]; a barrel's flows are those of one barrel."""

    cleaner: Floats
    choke: Floats  # past its plate
    leak: Floats  # into the manifold
    inside_vent: Floats  # horn to bowl
    outer_vents: Floats  # all else that the bowl gains: other vents, leak, vapour
    engine: Floats  # air into the cylinders
    venturi: Floats
    throttle: Floats
    main_bleed: Floats  # horn to tube
    holes: Floats  # tube to well
    main_jet: Floats  # fuel, bowl to well
    idle_jet: Stream  # well to mix
    pull_over: Floats  # air, mix to well
    bypass: Stream  # bore to mix
    idle_air: Stream  # horn to mix
    economizer: Stream  # mix to chamber
    slot_above: Stream  # bore to chamber
    valve: Stream  # bore to chamber
    slot_below: Stream  # chamber to manifold
    screw: Stream  # chamber to manifold
    nozzle: Stream  # well to booster
    carried: Floats  # air that goes with the nozzle's fuel
    bubbles: Floats  # air that rises through the nozzle on its own
    backflow: Floats  # air, booster to an empty well
    power_share: Floats  # of the main jet's flow, what the rod has let through [1]


class _Air(NamedTuple):
    """First pass: one barrel's openings as if only air passed them."""

    venturi: Floats
    main_bleed: Floats
    bypass: Floats
    idle_air: Floats
    slot_above: Floats
    valve: Floats
    throttle: Floats
    pull_over: Floats
    backflow: Floats
    slot_below: Floats
    screw: Floats


def pressures(problem: Problem, unknowns: Floats) -> Pressures:
    """Return the unknown pressures by name, with the two that follow from them.

    Parameters
    ----------
    problem
        The network.
    unknowns
        Pressures [Pa], shape (unknowns, copies, points), in the order of `Pressures`.

    References
    ----------
    Booster and recovery: `fuelcircuits.physics.venturi`.
    """
    each = unknowns[4 : 4 + 5 * problem.barrels]
    barrel = each.reshape(5, problem.barrels, *unknowns.shape[1:])
    choke, venturi = unknowns[1], barrel[0]
    booster = choke * (venturi / choke) ** problem.gain
    lost = (1.0 - problem.air_path.venturi_recovery) * (choke - venturi)
    return Pressures._make([*unknowns[:4], *barrel, booster, choke - lost])


def _through(
    points: Points, like: Floats, openings: Openings, share: Floats | float = 0.0
) -> list[Floats]:
    """Return signed flows through openings (area, from, to), in one call of the model.

    Openings of a barrel have the axes of `like`, (barrels, copies, points); shared ones lack
    the first and come back without it.
    """
    tall, (_, *wide) = like.shape[0], like.shape
    heights = [tall if one.ndim == 3 or two.ndim == 3 else 0 for _, one, two in openings]
    ends = np.cumsum([max(height, 1) for height in heights])
    both = np.empty((2, ends[-1], *wide))
    for end, height, (_, one, two) in zip(ends, heights, openings, strict=True):
        rows = slice(end - max(height, 1), end)
        both[0, rows], both[1, rows] = one, two
    drop = both[0] - both[1]
    flux = mass_flux(
        share,
        np.maximum(both[0], both[1]),
        np.abs(drop),
        points.temperature,
        points.fuel_density,
        gas_constant=points.gas_constant,
    )
    signed = np.copysign(flux, drop)
    return [
        area * (signed[end - height : end] if height else signed[end - 1])
        for end, height, (area, _, _) in zip(ends, heights, openings, strict=True)
    ]


def _mouth(drive: Floats, weight: Floats) -> Floats:
    """Return the share of a mouth that is open: a weir until the surface has crossed it."""
    return np.asarray(np.minimum(drive / (weight * _MOUTH), 1.0))


def _first_pass(
    problem: Problem, p: Pressures, points: Points, valve: Floats
) -> tuple[list[Floats], _Air]:
    """Return the shared flows, and a barrel's as if only air passed its openings.

    What this gives as leaving a mixture is computed again, with what that holds.
    """
    parts, outside = problem.parts, points.pressure
    weight = GRAVITY * points.fuel_density
    foot = np.minimum(p.well + weight * problem.low.tube_depth, p.mix)
    bottom = np.minimum(p.well + weight * problem.high.well_depth, p.booster)
    clear, dry = _mouth(p.mix - foot, weight), _mouth(p.booster - bottom, weight)
    shared = (
        (parts.cleaner, outside, p.horn),
        (points.choke, p.horn, p.choke),
        (parts.leak, outside, p.manifold),
        (points.vent_inside, p.horn, p.bowl),
        (points.vent_outside, outside, p.bowl),
        (points.vent_canister, points.canister, p.bowl),
        (points.vent_gasket, outside, p.bowl),
    )
    each = (
        (parts.venturi, p.choke, p.venturi),
        (parts.bleed, p.horn, p.tube),
        (parts.bypass, p.choke, p.mix),
        (points.idle_air, p.horn, p.mix),
        (points.above, p.throttle, p.chamber),
        (valve, p.choke, p.chamber),
        (points.throttle, p.throttle, p.manifold),
        (parts.tube * clear, p.mix, foot),
        (parts.nozzle * dry, p.booster, bottom),
        (points.below, p.chamber, p.manifold),
        (points.port, p.chamber, p.manifold),
    )
    found = _through(points, p.well, (*shared, *each))
    return found[: len(shared)], _Air._make(found[len(shared) :])


def _jets(problem: Problem, p: Pressures, points: Points) -> tuple[Floats, Floats, Floats]:
    """Return what main and low-speed jet pass of fuel, and what of the first the rod lets by."""
    high, low, rod = problem.high, problem.low, problem.rod
    weight = GRAVITY * points.fuel_density
    thickness: Floats | float = 0.0
    if rod is not None:
        lift = power.rod_lift(rod, points.pressure - p.manifold)
        thickness = np.asarray(power.rod_diameter(rod, lift))
    area = np.asarray(power.jet_area(high.jet_bore, thickness))
    drop = np.empty((2, *p.well.shape))
    size, gap = np.empty_like(drop), np.empty_like(drop)
    drop[0] = p.bowl + weight * points.bowl_level - p.well
    np.maximum(p.well - weight * low.lift - p.mix, 0.0, out=drop[1])
    size[0], size[1] = area, problem.parts.idle_jet
    gap[0], gap[1] = power.jet_gap(high.jet_bore, thickness), low.jet_bore
    coefficients = problem.parts.slender, problem.parts.ultimate
    passed = jet_flow(
        size, gap, coefficients, drop, points.fuel_density, viscosity=points.viscosity
    )
    least = area if rod is None else power.jet_area(high.jet_bore, rod.lean_step)
    return passed[0], passed[1], 1.0 - least / area


def _lifted(p: Pressures, points: Points, main: Floats, lifted: Floats, backflow: Floats) -> Stream:
    """Return what the low-speed jet lifts: fuel, or fuel and air once the well has run empty."""
    if not backflow.any():
        return Stream(np.zeros_like(lifted), lifted)
    supply = np.maximum(main, 0.0) + _TRACE
    share = supply / (supply + backflow)
    density = points.fuel_density
    volume = specific_volume(share, p.well, points.temperature, density, points.gas_constant)
    total = lifted / np.sqrt(volume * density)
    return Stream((1.0 - share) * total, share * total)


def _mix(
    problem: Problem, p: Pressures, points: Points, air: _Air, jet: Stream
) -> tuple[Stream, Stream, Stream]:
    """Return by-pass, idle air and economizer."""
    entering = np.maximum(air.bypass, 0.0) + np.maximum(air.idle_air, 0.0) + jet.total
    share = (jet.fuel + _TRACE) / (entering + _TRACE)
    volume = specific_volume(
        share, p.mix, points.temperature, points.fuel_density, points.gas_constant
    )
    falling = p.mix + GRAVITY * problem.low.fall / volume
    down = np.where(falling > p.chamber, share, 0.0)
    (through,) = _through(points, p.well, ((problem.parts.economizer, falling, p.chamber),), down)
    economizer = Stream((1.0 - down) * through, down * through)
    none = np.zeros_like(share)
    bypass, idle_air = Stream(air.bypass, none), Stream(air.idle_air, none)
    if min(air.bypass.min(), air.idle_air.min()) < 0.0:
        share = (jet.fuel + _TRACE) / (entering + np.maximum(-through, 0.0) + _TRACE)
        openings = (
            (problem.parts.bypass, p.choke, np.maximum(p.mix, p.choke)),
            (points.idle_air, p.horn, np.maximum(p.mix, p.horn)),
        )
        bypass, idle_air = (
            Stream(np.maximum(one, 0.0) + (1.0 - share) * two, share * two)
            for one, two in zip(
                (air.bypass, air.idle_air),
                _through(points, p.well, openings, np.concatenate([share, share])),
                strict=True,
            )
        )
    return bypass, idle_air, economizer


def _leaving(
    problem: Problem,
    p: Pressures,
    points: Points,
    air: _Air,
    *,
    economizer: Stream,
    valve: Floats,
    surplus: Floats,
    gas: Floats,
) -> tuple[list[Stream], Stream, Floats]:
    """Return the chamber's four openings, the nozzle, and the air its fuel carries along.

    The four are slot above the edge, bleed valve, slot below the edge and screw port.
    """
    inward = (
        np.maximum(air.slot_above, 0.0),
        np.maximum(air.valve, 0.0),
        np.minimum(air.slot_below, 0.0),
        np.minimum(air.screw, 0.0),
    )
    entering = np.maximum(economizer.total, 0.0) + inward[0] + inward[1] - inward[2] - inward[3]
    share = (np.maximum(economizer.fuel, 0.0) + _TRACE) / (entering + _TRACE)
    together = surplus + gas + _TRACE
    carried = surplus * gas / together
    rich = together / (together + gas)
    weight = GRAVITY * points.fuel_density
    lifted = np.maximum(p.well - weight * problem.high.lip, p.booster)
    nozzle_area = problem.parts.nozzle * _mouth(lifted - p.booster, weight)
    below = np.maximum(p.chamber, p.manifold)
    openings = (
        (points.above, p.throttle, np.maximum(p.chamber, p.throttle)),
        (valve, p.choke, np.maximum(p.chamber, p.choke)),
        (points.below, below, p.manifold),
        (points.port, below, p.manifold),
        (nozzle_area, lifted, p.booster),
    )
    *ports, nozzle = _through(
        points, p.well, openings, np.concatenate([share, share, share, share, rich])
    )
    streams = [
        Stream(one + (1.0 - share) * two, share * two)
        for one, two in zip(inward, ports, strict=True)
    ]
    return streams, Stream((1.0 - rich) * nozzle, rich * nozzle), carried


def flows(problem: Problem, p: Pressures, points: Points) -> Flows:
    """Return every flow of the network.

    Parameters
    ----------
    problem
        The network.
    p
        Pressures [Pa].
    points
        The operating points.

    Returns
    -------
    Flows
        Shared ones of shape (copies, points), a barrel's with barrels before.

    References
    ----------
    Each opening's equation stands with it in its own module.
    """
    valve = PORT_DISCHARGE * np.asarray(valve_area(problem.low, p.choke - p.chamber))
    (cleaner, choke, leak, inside, *vents), air = _first_pass(problem, p, points, valve)
    main, lifted, rod_share = _jets(problem, p, points)
    tube_density = p.tube / (points.gas_constant * points.temperature)
    holes = hole_flow(problem.high, p.tube, p.well, points.fuel_density, tube_density)
    holes = problem.parts.bled * np.asarray(holes)
    jet = _lifted(p, points, main, lifted, air.backflow)
    bypass, idle_air, economizer = _mix(problem, p, points, air, jet)
    gas = holes + air.pull_over
    (above, bleed, below, screw), nozzle, carried = _leaving(
        problem,
        p,
        points,
        air,
        economizer=economizer,
        valve=valve,
        surplus=np.maximum(main - jet.fuel, 0.0),
        gas=gas,
    )
    return Flows(
        cleaner=cleaner,
        choke=choke,
        leak=leak,
        inside_vent=inside,
        outer_vents=vents[0] + vents[1] + vents[2] + points.vapour,
        engine=air_demand(
            problem.engine, points.speed, p.manifold, points.charge_temperature, points.pressure
        ),
        venturi=air.venturi,
        throttle=air.throttle,
        main_bleed=air.main_bleed,
        holes=holes,
        main_jet=main,
        idle_jet=jet,
        pull_over=air.pull_over,
        bypass=bypass,
        idle_air=idle_air,
        economizer=economizer,
        slot_above=above,
        valve=bleed,
        slot_below=below,
        screw=screw,
        nozzle=nozzle,
        carried=carried,
        bubbles=gas - carried,
        backflow=air.backflow,
        power_share=rod_share,
    )
