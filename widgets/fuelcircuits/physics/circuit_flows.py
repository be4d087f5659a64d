"""Every flow of the network for given pressures.

Each flow is computed once and enters both its ends, so what one part loses another gains, air
and fuel apart. What a part passes on is the even mixture of all that enters it. That mixture
need not be an unknown: fuel enters the mix only by the low-speed jet and the chamber only by
the economizer, so the shares follow from the flows one after the other.

Standing columns of fuel hold: the nozzle passes nothing until the well stands above its lip;
the low-speed jet turns round only when air has pushed the fuel out of the foot of its tube;
air runs back into the well from the booster only when the well is empty. The nozzle's fuel S
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
    bowl: Floats  # gas that the bowl gains
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


def _through(points: Points, openings: Openings, share: Floats | float = 0.0) -> list[Floats]:
    """Return signed flows through openings (area, from, to), in one call of the model."""
    sizes = (np.broadcast_shapes(np.shape(a), np.shape(b)) for _, a, b in openings)
    shape = (len(openings), *np.broadcast_shapes(*sizes))
    before, behind = np.empty(shape), np.empty(shape)
    for row, (_, one, two) in enumerate(openings):
        before[row], behind[row] = one, two
    drop = before - behind
    flux = mass_flux(
        share,
        np.maximum(before, behind),
        np.abs(drop),
        points.temperature,
        points.fuel_density,
        gas_constant=points.gas_constant,
    )
    signed = np.sign(drop) * flux
    return [area * signed[row] for row, (area, _, _) in enumerate(openings)]


def _shared(problem: Problem, p: Pressures, points: Points) -> list[Floats]:
    """Return the flows through cleaner, choke, leak and the bowl's four openings."""
    outside = points.pressure
    return _through(
        points,
        (
            (problem.parts.cleaner, outside, p.horn),
            (points.choke, p.horn, p.choke),
            (problem.parts.leak, outside, p.manifold),
            (points.vent_inside, p.horn, p.bowl),
            (points.vent_outside, outside, p.bowl),
            (points.vent_canister, points.canister, p.bowl),
            (points.vent_gasket, outside, p.bowl),
        ),
    )


def _air(problem: Problem, p: Pressures, points: Points, valve: Floats) -> _Air:
    """Return the first pass; what it gives as leaving a mixture is computed again."""
    parts, weight = problem.parts, GRAVITY * points.fuel_density
    foot = np.minimum(p.well + weight * problem.low.tube_depth, p.mix)
    bottom = np.minimum(p.well + weight * problem.high.well_depth, p.booster)
    openings = (
        (parts.venturi, p.choke, p.venturi),
        (parts.bleed, p.horn, p.tube),
        (parts.bypass, p.choke, p.mix),
        (points.idle_air, p.horn, p.mix),
        (points.above, p.throttle, p.chamber),
        (valve, p.choke, p.chamber),
        (points.throttle, p.throttle, p.manifold),
        (parts.tube, p.mix, foot),
        (parts.nozzle, p.booster, bottom),
        (points.below, p.chamber, p.manifold),
        (points.port, p.chamber, p.manifold),
    )
    return _Air._make(_through(points, openings))


def _main_jet(problem: Problem, p: Pressures, points: Points) -> tuple[Floats, Floats]:
    """Return the main jet's flow, and the share of it that the metering rod has let through."""
    high, rod = problem.high, problem.rod
    head = GRAVITY * points.fuel_density * points.bowl_level
    thickness = 0.0 if rod is None else rod.lean_step
    least = power.jet_area(high.jet_bore, thickness)
    if rod is not None:
        thickness = power.rod_diameter(rod, power.rod_lift(rod, points.pressure - p.manifold))
    area = power.jet_area(high.jet_bore, thickness)
    flow = jet_flow(
        area,
        power.jet_gap(high.jet_bore, thickness),
        high.jet_length,
        p.bowl + head - p.well,
        points.fuel_density,
        viscosity=points.viscosity,
    )
    return flow, np.broadcast_to(1.0 - least / area, flow.shape)


def _idle_jet(
    problem: Problem, p: Pressures, points: Points, main: Floats, backflow: Floats
) -> Stream:
    """Return what the low-speed jet lifts: fuel, or fuel and air once the well has run empty."""
    low, density = problem.low, points.fuel_density
    supply = np.maximum(main, 0.0) + _TRACE
    share = supply / (supply + backflow)
    drop = np.maximum(p.well - GRAVITY * density * low.lift - p.mix, 0.0)
    area = problem.parts.idle_jet
    fuel = jet_flow(area, low.jet_bore, low.jet_length, drop, density, viscosity=points.viscosity)
    volume = specific_volume(share, p.well, points.temperature, density, points.gas_constant)
    total = fuel / np.sqrt(volume * density)
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
    (through,) = _through(points, ((problem.parts.economizer, falling, p.chamber),), down)
    economizer = Stream((1.0 - down) * through, down * through)
    bypass, idle_air = _inward(air.bypass), _inward(air.idle_air)
    if np.any(air.bypass < 0.0) or np.any(air.idle_air < 0.0):
        share = (jet.fuel + _TRACE) / (entering + np.maximum(-through, 0.0) + _TRACE)
        openings = (
            (problem.parts.bypass, p.choke, np.maximum(p.mix, p.choke)),
            (points.idle_air, p.horn, np.maximum(p.mix, p.horn)),
        )
        out = _through(points, openings, share)
        bypass, idle_air = (
            Stream(one.air + (1.0 - share) * two, share * two)
            for one, two in zip((bypass, idle_air), out, strict=True)
        )
    return bypass, idle_air, economizer


def _inward(air: Floats) -> Stream:
    """Return the part of a first-pass flow that really is air: what runs inward."""
    return Stream(np.maximum(air, 0.0), np.zeros_like(air))


def _chamber(
    problem: Problem, p: Pressures, points: Points, air: _Air, *, economizer: Stream, valve: Floats
) -> tuple[Stream, Stream, Stream, Stream]:
    """Return slot above the edge, bleed valve, slot below the edge and screw port."""
    back = np.maximum(-air.slot_below, 0.0), np.maximum(-air.screw, 0.0)
    entering = np.maximum(economizer.total, 0.0) + np.maximum(air.slot_above, 0.0)
    entering = entering + np.maximum(air.valve, 0.0) + back[0] + back[1]
    share = (np.maximum(economizer.fuel, 0.0) + _TRACE) / (entering + _TRACE)
    openings = (
        (points.above, p.throttle, np.maximum(p.chamber, p.throttle)),
        (valve, p.choke, np.maximum(p.chamber, p.choke)),
        (points.below, np.maximum(p.chamber, p.manifold), p.manifold),
        (points.port, np.maximum(p.chamber, p.manifold), p.manifold),
    )
    inward = air.slot_above, air.valve
    entered = *(np.maximum(each, 0.0) for each in inward), -back[0], -back[1]
    above, bleed, below, screw = (
        Stream(one + (1.0 - share) * two, share * two)
        for one, two in zip(entered, _through(points, openings, share), strict=True)
    )
    return above, bleed, below, screw


def _nozzle(
    problem: Problem, p: Pressures, points: Points, surplus: Floats, air: Floats
) -> tuple[Stream, Floats]:
    """Return the nozzle's flow, and the air that the well's surplus fuel carries with it."""
    together = surplus + air + _TRACE
    carried = surplus * air / together
    share = together / (together + air)
    lifted = p.well - GRAVITY * points.fuel_density * problem.high.lip
    openings = ((problem.parts.nozzle, np.maximum(lifted, p.booster), p.booster),)
    (total,) = _through(points, openings, share)
    return Stream((1.0 - share) * total, share * total), carried


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
    cleaner, choke, leak, inside, *vents = _shared(problem, p, points)
    valve = PORT_DISCHARGE * np.asarray(valve_area(problem.low, p.choke - p.chamber))
    air = _air(problem, p, points, valve)
    main, rod_share = _main_jet(problem, p, points)
    tube_density = p.tube / (points.gas_constant * points.temperature)
    holes = hole_flow(problem.high, p.tube, p.well, points.fuel_density, tube_density)
    holes = problem.parts.bled * np.asarray(holes)
    jet = _idle_jet(problem, p, points, main, air.backflow)
    bypass, idle_air, economizer = _mix(problem, p, points, air, jet)
    above, bleed, below, screw = _chamber(
        problem, p, points, air, economizer=economizer, valve=valve
    )
    surplus, gas = np.maximum(main - jet.fuel, 0.0), holes + air.pull_over
    nozzle, carried = _nozzle(problem, p, points, surplus, gas)
    demand = air_demand(
        problem.engine, points.speed, p.manifold, points.charge_temperature, points.pressure
    )
    return Flows(
        cleaner=cleaner,
        choke=choke,
        leak=leak,
        inside_vent=inside,
        bowl=inside + sum(vents) + points.vapour,
        engine=demand,
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
