"""The balance of the whole carburettor and its engine: unknowns, flows, residuals.

Unknowns, all absolute pressures [Pa]. Shared by the barrels: horn, choke (below its plate),
manifold, bowl. One for each barrel: venturi (main throat), well (at the height of the set fuel
level), tube (air behind the well's bleed holes), mix (where fuel and air of the low-speed
circuit meet), chamber (behind the idle ports). Where an angle or a speed is asked for, that is
the last unknown.

Residuals, one for each unknown: mass in less mass out of the part named [kg/s]:

    horn      cleaner - choke plate - idle air - main bleeds - inside vent
    choke     choke plate - venturis - by-passes - bleed valves
    manifold  throttles + idle ports + leak - engine
    bowl      vents and leaks of the bowl, with the vapour made in it
    venturi   venturi + air of the nozzle - slot above the plate's edge - throttle
    well      main jet + air carried along - nozzle - low-speed jet
    tube      main bleed - bleed holes
    mix       low-speed jet + by-pass + idle air - economizer - air pulled over into the well
    chamber   economizer + slot above the edge + bleed valve - slot below - screw port

Every flow is computed once and enters both its ends, so what one part loses another gains, air
and fuel apart. What a part passes on is the mixture of all that enters it. That mixture need
not be unknown: fuel enters the mix only by the low-speed jet and the chamber only by the
economizer, so the shares follow from the flows one after the other. Standing columns of fuel
hold: the nozzle passes nothing until the well stands above its lip; the low-speed jet turns
round only when air has pushed the fuel out of the foot of its tube. The nozzle carries along no
more air than fuel; the rest rises through it on its own.
"""

from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics import power as rod
from fuelcircuits.physics.air_path import AirPath, throttle_area
from fuelcircuits.physics.engine import Engine, air_demand
from fuelcircuits.physics.high_speed import GRAVITY, HighSpeed, hole_flow, jet_flow
from fuelcircuits.physics.low_speed import LowSpeed, slot_areas, valve_area
from fuelcircuits.physics.two_phase import bore_area, mass_flux, specific_volume
from fuelcircuits.physics.vents import DISCHARGE as VENT_DISCHARGE
from fuelcircuits.physics.vents import Vents, openings
from fuelcircuits.physics.venturi import booster_gain

__all__ = ["SHARED", "Flows", "Geometry", "Problem", "flows", "geometry", "residuals"]

Floats = NDArray[np.float64]

SHARED = ("horn pressure", "pressure below the choke", "manifold pressure", "bowl pressure")
"""Names of the shared unknowns, in their order."""
EACH = ("venturi pressure", "well pressure", "tube pressure", "mix pressure", "chamber pressure")
"""Names of each barrel's unknowns, in their order."""
BLEED_DISCHARGE = 0.8
"""Discharge coefficient of a drilled bleed or nozzle, a short tube [1] (common practice)."""
PORT_DISCHARGE = 0.7
"""Discharge coefficient of slot, screw port, economizer and valve [1] (common practice)."""
_FLOOR = 1e-9  # kg/s, the flow below which a part counts as idle
_TRACE = 1e-14  # kg/s, keeps a share defined where nothing flows


@dataclass(frozen=True)
class Problem:
    """One network and its operating points; arrays of points are last, barrels before them."""

    engine: Engine
    air_path: AirPath
    vents: Vents
    low: LowSpeed  # its fields have the shape (barrels, 1, 1)
    high: HighSpeed
    rod: rod.Power | None
    barrels: int  # barrels told apart: 1 where all are alike
    points: dict[str, Any]  # name -> array of points, see `network`
    parts: dict[str, Any]  # name -> areas that no unknown changes
    free: str = ""  # "", "angle" or "speed": the last unknown

    def at(self, index: NDArray[np.intp]) -> dict[str, Any]:
        """Return the points' data for some of the points."""
        return {name: value[..., index] for name, value in self.points.items()}


class Geometry(NamedTuple):
    """Areas that the throttle's angle sets [m2]."""

    throttle: Floats  # effective, one barrel
    below: Floats  # slot, below the edge
    above: Floats  # slot, above the edge
    vents: tuple[Floats, Floats, Floats, Floats]


class Flows(NamedTuple):
    """Every flow of the network [kg/s]; fuel apart where a mixture flows. See the module."""

    cleaner: Floats
    choke: Floats
    leak: Floats
    inside_vent: Floats
    bowl: Floats  # net gas into the bowl
    engine: Floats
    venturi: Floats
    throttle: Floats
    bleed: Floats  # main air bleed
    holes: Floats
    bypass: Floats  # air and fuel, into the mix
    bypass_fuel: Floats
    idle_air: Floats  # air and fuel, into the mix
    idle_air_fuel: Floats
    main_jet: Floats
    idle_jet: Floats  # air and fuel, out of the well
    idle_jet_fuel: Floats
    pull_over: Floats  # air from the mix into the well
    economizer: Floats  # air and fuel, into the chamber
    economizer_fuel: Floats
    upper: Floats  # slot above the edge, into the chamber
    upper_fuel: Floats
    lower: Floats  # slot below the edge, out of the chamber
    lower_fuel: Floats
    screw: Floats  # screw port, out of the chamber
    screw_fuel: Floats
    valve: Floats  # off-idle bleed valve, into the chamber
    valve_fuel: Floats
    nozzle: Floats  # air and fuel, out of the well
    nozzle_fuel: Floats
    bubbles: Floats  # air that rises through the nozzle on its own
    carried: Floats  # air that the nozzle's fuel carries along
    nozzle_back: Floats  # air from the booster into an empty well
    power_share: Floats  # of the main jet's flow, what the rod has let through
    pressures: tuple[Floats, ...]  # horn, choke, manifold, bowl, venturi, well, tube, mix, chamber
    booster: Floats  # pressure
    below_venturi: Floats  # pressure


def geometry(problem: Problem, angle: Floats, ignition: Floats) -> Geometry:
    """Return the areas that follow from the throttle's angle, as arrays that broadcast."""
    path = problem.air_path
    slot = slot_areas(problem.low, angle, path.throttle_bore, path.throttle_closed_angle)
    vents = openings(problem.vents, angle, ignition)
    return Geometry(
        throttle_area(path, angle) / path.barrels,
        np.asarray(slot.below) * PORT_DISCHARGE,
        np.asarray(slot.above) * PORT_DISCHARGE,
        tuple(VENT_DISCHARGE * np.asarray(each) for each in vents),  # type: ignore[arg-type]
    )


def _through(
    area: list[Floats], first: list[Any], second: list[Any], share: Any, data: dict[str, Any]
) -> list[Floats]:
    """Return signed flows through several openings, all in one call of the two-phase model."""
    sizes = [
        np.broadcast_shapes(np.shape(a), np.shape(b)) for a, b in zip(first, second, strict=True)
    ]
    shape = (len(area), *np.broadcast_shapes(*sizes))
    before, behind = np.empty(shape), np.empty(shape)
    for row, (one, two) in enumerate(zip(first, second, strict=True)):
        before[row], behind[row] = one, two
    if isinstance(share, list):
        rows, share = share, np.empty(shape)
        for row, one in enumerate(rows):
            share[row] = one
    drop = before - behind
    flux = mass_flux(
        share,
        np.maximum(before, behind),
        np.abs(drop),
        data["temperature"],
        data["fuel_density"],
        gas_constant=data["gas_constant"],
    )
    signed = np.sign(drop) * flux
    return [each * signed[row] for row, each in enumerate(area)]


def flows(problem: Problem, unknowns: Floats, data: dict[str, Any], known: Geometry) -> Flows:
    """Return every flow for given pressures.

    Parameters
    ----------
    problem
        The network.
    unknowns
        Pressures [Pa], shape (unknowns, copies, points); see the module.
    data
        The points' data.
    known
        The throttle's geometry.

    Returns
    -------
    Flows
        Shared ones of shape (copies, points), others with barrels before.

    References
    ----------
    Each opening's own model, in its own module.
    """
    low, high, parts, path = problem.low, problem.high, problem.parts, problem.air_path
    horn, choke, manifold, bowl = unknowns[:4]
    count = 4 + 5 * problem.barrels
    each = unknowns[4:count].reshape(5, problem.barrels, *unknowns.shape[1:])
    venturi, well, tube, mix, chamber = each
    outside, density = data["pressure"], data["fuel_density"]
    temperature, constant = data["temperature"], data["gas_constant"]
    weight = density * GRAVITY

    gain = booster_gain(path)
    booster = choke * (venturi / choke) ** gain
    above = choke - (1.0 - path.venturi_recovery) * (choke - venturi)
    foot = np.minimum(well + weight * low.tube_depth, mix)
    bottom = np.minimum(well + weight * high.well_depth, booster)
    valve = PORT_DISCHARGE * valve_area(low, choke - chamber)

    cleaner, plate, leak, *vent = _through(
        [parts["cleaner"], data["choke_area"], parts["leak"], *known.vents],
        [outside, horn, outside, horn, outside, data["canister"], outside],
        [horn, choke, manifold, bowl, bowl, bowl, bowl],
        0.0,
        data,
    )
    ring, bleed, bypass, idle_air, upper, valve_in, throttle, pull_over, back, low_in, screw_in = (
        _through(
            [
                parts["venturi"],
                parts["bleed"],
                parts["bypass"],
                data["idle_air"],
                known.above,
                valve,
                known.throttle,
                parts["tube"],
                parts["nozzle"],
                known.below,
                data["port"],
            ],
            [choke, horn, choke, horn, above, choke, above, mix, booster, manifold, manifold],
            [venturi, tube, mix, mix, chamber, chamber, manifold, foot, bottom, chamber, chamber],
            0.0,
            data,
        )
    )

    area, gap, lean = parts["jet_area"], parts["jet_gap"], parts["jet_area"]
    if problem.rod is not None:
        diameter = rod.rod_diameter(problem.rod, rod.rod_lift(problem.rod, outside - manifold))
        area, gap = rod.jet_area(high.jet_bore, diameter), rod.jet_gap(high.jet_bore, diameter)
        lean = rod.jet_area(high.jet_bore, problem.rod.lean_step)
    thick = data["viscosity"]
    main_drop = bowl + weight * data["bowl_level"] - well
    main_jet = jet_flow(area, gap, high.jet_length, main_drop, density, viscosity=thick)
    air_density = tube / (constant * temperature)
    holes = parts["has_bleed"] * hole_flow(high, tube, well, density, air_density)

    # what leaves the well by the low-speed jet: fuel, or a mixture once the well has run empty
    supply = np.maximum(main_jet, 0.0) + _TRACE
    idle_share = supply / (supply + back)
    lifted = np.maximum(well - weight * low.lift - mix, 0.0)
    idle_jet = jet_flow(
        parts["idle_jet"], low.jet_bore, low.jet_length, lifted, density, viscosity=thick
    )
    thin = density * specific_volume(idle_share, well, temperature, density, constant)
    idle_jet = idle_jet / np.sqrt(thin)
    idle_jet_fuel = idle_share * idle_jet

    # the mix: fuel from the jet, air from the two bleeds
    entering = np.maximum(bypass, 0.0) + np.maximum(idle_air, 0.0) + idle_jet
    mix_share = (idle_jet_fuel + _TRACE) / (entering + _TRACE)
    column = GRAVITY * low.fall / specific_volume(mix_share, mix, temperature, density, constant)
    falling = mix + column
    (economizer,) = _through(
        [parts["economizer"]],
        [falling],
        [chamber],
        np.where(falling > chamber, mix_share, 0.0),
        data,
    )
    economizer_fuel = mix_share * np.maximum(economizer, 0.0)
    bypass_fuel, idle_air_fuel = np.zeros_like(bypass), np.zeros_like(idle_air)
    if np.any(bypass < 0.0) or np.any(idle_air < 0.0):
        mix_share = (idle_jet_fuel + _TRACE) / (entering + np.maximum(-economizer, 0.0) + _TRACE)
        spit, spill = _through(
            [parts["bypass"], data["idle_air"]], [choke, horn], [mix, mix], mix_share, data
        )
        bypass, idle_air = (
            np.where(bypass < 0, spit, bypass),
            np.where(idle_air < 0, spill, idle_air),
        )
        bypass_fuel = mix_share * np.minimum(bypass, 0.0)
        idle_air_fuel = mix_share * np.minimum(idle_air, 0.0)

    # the chamber: fuel from the economizer, air from slot and valve
    chamber_in = sum(
        np.maximum(one, 0.0) for one in (economizer, upper, valve_in, low_in, screw_in)
    )
    share = (economizer_fuel + _TRACE) / (chamber_in + _TRACE)
    lower, screw, spat, vented = _through(
        [known.below, data["port"], known.above, valve],
        [chamber, chamber, above, choke],
        [manifold, manifold, chamber, chamber],
        share,
        data,
    )
    lower, screw = (
        np.where(low_in > 0.0, -low_in, lower),
        np.where(screw_in > 0.0, -screw_in, screw),
    )
    upper = np.where(upper < 0.0, spat, upper)
    valve_in = np.where(valve_in < 0.0, vented, valve_in)
    upper_fuel, valve_fuel = share * np.minimum(upper, 0.0), share * np.minimum(valve_in, 0.0)
    lower_fuel, screw_fuel = share * np.maximum(lower, 0.0), share * np.maximum(screw, 0.0)

    # the nozzle: what fuel is over, and the air it carries along
    surplus = np.maximum(main_jet - idle_jet_fuel, 0.0)
    air = holes + pull_over
    carried = np.minimum(air, surplus)
    nozzle_share = (surplus + _TRACE) / (surplus + carried + _TRACE)
    lip = np.maximum(well - weight * high.lip, booster)
    (nozzle,) = _through([parts["nozzle"]], [lip], [booster], nozzle_share, data)
    nozzle_fuel = nozzle_share * nozzle
    demand = air_demand(
        problem.engine, data["speed"], manifold, data["charge_temperature"], outside
    )
    return Flows(
        cleaner,
        plate,
        leak,
        vent[0],
        vent[0] + vent[1] + vent[2] + vent[3] + data["vapour"],
        demand,
        ring,
        throttle,
        bleed,
        holes,
        bypass,
        bypass_fuel,
        idle_air,
        idle_air_fuel,
        main_jet,
        idle_jet,
        idle_jet_fuel,
        pull_over,
        economizer,
        economizer_fuel,
        upper,
        upper_fuel,
        lower,
        lower_fuel,
        screw,
        screw_fuel,
        valve_in,
        valve_fuel,
        nozzle,
        nozzle_fuel,
        air - carried,
        carried,
        back,
        1.0 - lean / area,
        (horn, choke, manifold, bowl, venturi, well, tube, mix, chamber),
        booster,
        above,
    )


def residuals(
    problem: Problem, unknowns: Floats, data: dict[str, Any], known: Geometry
) -> tuple[Floats, Floats]:
    """Return each part's imbalance and the traffic through it [kg/s].

    Parameters
    ----------
    problem, unknowns, data, known
        As in `flows`.

    Returns
    -------
    imbalance, traffic
        Shape (unknowns, copies, points) without the last unknown's own equation.

    References
    ----------
    Conservation of mass; the list stands at the head of the module.
    """
    f = flows(problem, unknowns, data, known)
    like = problem.air_path.barrels / problem.barrels

    def total(flow: Floats) -> Floats:
        return like * flow.sum(axis=0)

    idle_air, bypass = f.idle_air - f.idle_air_fuel, f.bypass - f.bypass_fuel
    valve, upper = f.valve - f.valve_fuel, f.upper - f.upper_fuel
    ports = f.lower - f.lower_fuel + f.screw - f.screw_fuel
    nozzle_air = f.nozzle - f.nozzle_fuel + f.bubbles - f.nozzle_back
    shared = (
        (f.cleaner, -f.choke, -total(idle_air + f.bleed), -f.inside_vent),
        (f.choke, -total(f.venturi), -total(bypass + valve)),
        (total(f.throttle), total(ports), f.leak, -f.engine),
        (f.bowl,),
    )
    tube = f.pressures[6] - f.pressures[5]
    without = 1.0 - problem.parts["has_bleed"]
    each = (
        (f.venturi, nozzle_air, -upper, -f.throttle),
        (f.main_jet, f.carried, f.nozzle_back, -f.nozzle, -f.idle_jet),
        (f.bleed, -f.holes, without * 1e-9 * tube),
        (f.idle_jet, f.bypass, f.idle_air, -f.economizer, -f.pull_over),
        (f.economizer, f.upper, f.valve, -f.lower, -f.screw),
    )
    shape = unknowns.shape[1:]
    count = 4 + 5 * problem.barrels
    imbalance, traffic = np.empty((count, *shape)), np.empty((count, *shape))
    for row, terms in enumerate(shared):
        imbalance[row] = sum(terms)
        traffic[row] = sum(np.abs(term) for term in terms)
    for row, terms in enumerate(each):
        rows = slice(4 + row * problem.barrels, 4 + (row + 1) * problem.barrels)
        imbalance[rows] = sum(terms)
        traffic[rows] = sum(np.abs(term) for term in terms)
    if "bowl_pressure" in data:
        imbalance[3] = 1e-6 * (unknowns[3] - data["bowl_pressure"])
    traffic[3] = 1e-6
    return imbalance, 0.5 * traffic + _FLOOR
