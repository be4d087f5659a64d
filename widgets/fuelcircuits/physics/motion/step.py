"""One step of everything that moves: what `drive` marches, and what a live page asks for.

The network gives the flows of an instant against what engine and filling manifold want. Around
it move wells, pump, wall film, charge, fire and crankshaft, the bowl with its heat, the choke
with coil and cam, and the cold-start timer. `stepped` takes all of them one step on::

    car = Car(rig, weather, fuel, stop)
    now = begun(car, Start.warm(rig, weather))
    while True:
        now = stepped(car, now, Controls(pedal=0.3), 0.02)
        now.speed, now.vacuum, now.burning.mixture, now.network.fuel_by_circuit

Its interface is `set_up`, `begun`, `Start` (in `start`), and here `Car`, `Controls`, `Motion`,
`stepped`, `pedalled`, `settings_of`. A `Motion` is a value: nothing is kept between steps, the
same pedal gives the same numbers, and any moment can be gone on from. `settings_of` gives what
the steady network needs to show the same moment in another bench.

What it does not do
-------------------
The film's powers and the fire's limits were fitted to what drivers report, not to a measured
trace. Against that report it misses: from a tenth of the pedal upward an engine without its pump
never sags; after a lifted foot at 1500 rpm it stays richer than lambda 0.75 for 2.3 s, wanted
1.6 s; at the lightest load and 1000 rpm dunlin cruises at 16.8 to 1 and plover at 16.5,
because a nozzle gives least where it begins, longest without a bleed; on a very cold day a warm-up
is leaner than lambda 1.1 while the choke leaves its last third, and up to a fifth of the cycles
do not fire.
It leaves out: unlike cylinders and cycles but for a spread in `fire`, pulsation of the air, ice,
fuel that evaporates in wells and nozzles, back-pressure of the exhaust, the inertia of fuel in
jets and channels (4 to 15 ms), and the time from intake to exhaust.
"""

from fuelcircuits.errors import between, positive
from fuelcircuits.physics.circuits.canister import sorption
from fuelcircuits.physics.circuits.choke import coil_step
from fuelcircuits.physics.circuits.float_lever import supply_to
from fuelcircuits.physics.circuits.pump import rod_position
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.motion.boiling import Boiler, boiler
from fuelcircuits.physics.motion.bowl import bowl_level, bowl_warmth
from fuelcircuits.physics.motion.burning import NOTHING, burning
from fuelcircuits.physics.motion.charge import charge_step
from fuelcircuits.physics.motion.coolant import coolant_step
from fuelcircuits.physics.motion.crank import STALL, speed_step
from fuelcircuits.physics.motion.film import film_step, wetting
from fuelcircuits.physics.motion.hinge import cam_step, enriched, plate_step
from fuelcircuits.physics.motion.manifold import Breath, breathed, purge_flow, standing
from fuelcircuits.physics.motion.moving import Books, Car, Controls, Motion, chamber_fuel
from fuelcircuits.physics.motion.pump_shot import Liquid, pump_step
from fuelcircuits.physics.motion.well import WellStep, well_depths, well_step
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["Books", "Car", "Controls", "Motion", "boiler_of", "pedalled", "settings_of", "stepped"]

REST = 2.0
"""Speed below which an engine counts as standing, and nothing flows [rad/s]."""
FASTEST = 1000.0
"""Speed beyond which no stand turns an engine [rad/s]."""
LOWEST, HIGHEST = -40e-3, 20e-3
"""Levels above the specified one that the network takes [m]."""
COLDEST, HOTTEST = 233.0, 363.0
"""Temperatures of the fuel that the network takes [K]."""
MOST_VAPOUR = 1e-3
"""Vapour in the bowl that the network takes [kg/s]."""
DREGS = 1e-4
"""Depth of fuel whose heat is counted in an empty bowl [m]."""


def stepped(
    car: Car, now: Motion, controls: Controls, duration: float, *, air: Breath | None = None
) -> Motion:
    """Return everything one step later.

    Parameters
    ----------
    car
        What is driven; it may be changed from step to step, as by a fault or another altitude.
    now
        Everything at the start of the step; `fuelcircuits.physics.motion.start.begun` gives one.
    controls
        What the driver does during it.
    duration
        Length of the step [s]: 0.02 where the throttle moves, 0.04 is coarse, 1 where nothing
        happens.
    air
        What the air does in this step, where that is known from a like drive: at a held speed
        neither pump nor film nor fire changes it.

    Raises
    ------
    RangeError
        If the duration is not positive or a control out of range.
    ConvergenceError
        If the network has no balance.

    Notes
    -----
    Euler's implicit rule part by part, each with the others as they stood a step ago. What one
    part loses another gains: `Motion.books` closes to rounding.
    """
    positive("duration", duration, "s")
    now, taken = _pumped(car, _set(car, now, controls, duration), duration)
    now = now._replace(air=air or _breathed(car, now, controls, duration))
    now = _metered(car, now, taken, duration, ignition=controls.ignition)
    now = _carried(car, now, duration)
    now = _driven(car, now, controls, duration)
    return _warmed(car, now, duration)


def pedalled(car: Car, pedal: float) -> float:
    """Return how far a pedal [1] alone opens the throttle beyond its stop [rad]."""
    return (OPEN - car.stop) * between("pedal", pedal, 0.0, 1.0)


def settings_of(car: Car, now: Motion, *, ignition: bool = True) -> Settings:
    """Return what choke, bowl and timer are for the network."""
    level = now.bowl.level - car.card_level
    return Settings(
        choke_angle=now.choke,
        bowl_level=min(max(level, LOWEST), HIGHEST),
        vapour=min(now.bowl.vapour, MOST_VAPOUR),
        idle_enrichment=now.enrichment,
        ignition=float(ignition),
        fuel_temperature=_fuel_warmth(now),
    )


def boiler_of(car: Car, now: Motion, *, ignition: bool = True) -> Boiler:
    """Return the bowl with its vents as throttle and ignition have them."""
    return boiler(
        car.rig.hot_soak,
        car.rig.vents,
        car.fuel,
        car.weather.pressure,
        throttle=now.throttle,
        ignition=float(ignition),
    )


def _fuel_warmth(now: Motion) -> float:
    """Return the fuel's temperature [K]."""
    return min(max(now.bowl.temperature, COLDEST), HOTTEST)


def _set(car: Car, now: Motion, controls: Controls, duration: float) -> Motion:
    """Return everything with throttle and speed as they are during the step."""
    lifted, crank = pedalled(car, controls.pedal), car.rig.hot_soak.crank_speed
    cam, speed = now.cam, now.speed
    if car.rig.choke is not None:
        cam = cam_step(car.rig.choke, cam, lifted, now.choke)
    if controls.speed is not None:
        speed = between("speed", controls.speed, 0.0, FASTEST, "rad/s")
    elif controls.starter:
        speed = max(speed, crank)
    return now._replace(
        time=now.time + duration,
        pedal=controls.pedal,
        cam=cam,
        throttle=min(car.stop + max(lifted, cam), OPEN),
        speed=speed,
    )


def _pumped(car: Car, now: Motion, duration: float) -> tuple[Motion, float]:
    """Return everything with the pump a step on, and what it has taken from the bowl [kg/s]."""
    pump, warm = car.rig.pump, _fuel_warmth(now)
    inside = Liquid(liquid.density(car.fuel, warm), liquid.viscosity(car.fuel, warm))
    rod, pulled = rod_position(pump, now.throttle), 0.0
    if now.air.asked:
        pulled = now.network.pressures.bowl - now.network.pressures.choke
    after = pump_step(pump, now.pump, rod, duration, inside, depression=pulled)
    given = after.given - now.pump.given
    taken = given + chamber_fuel(pump, after) - chamber_fuel(pump, now.pump)
    flow = inside.density / duration
    return now._replace(pump=after, shot=flow * given), flow * taken


def _breathed(car: Car, now: Motion, controls: Controls, duration: float) -> Breath:
    """Return what the air does."""
    settings = settings_of(car, now, ignition=controls.ignition)
    of = pose(car.rig, car.weather, car.fuel, settings, car.other)
    if now.speed < REST:
        return standing(of, now.network, now.air.held, duration)
    purge = purge_flow(car.rig.canister, car.weather, now.air.pressure)
    at = place(of, now.speed, now.throttle)
    return breathed(of, at, now.air.held, duration, purge=purge, start=now.network)


def _metered(car: Car, now: Motion, taken: float, duration: float, *, ignition: bool) -> Motion:
    """Return everything with wells and bowl a step on, and what the carburettor gives."""
    bowl, fuel = car.rig.float_bowl, car.fuel
    supply = supply_to(bowl, fuel, None, car.weather.temperature, 0.0)
    wells = _wells(car, now, duration)
    alike = car.rig.air_path.barrels / len(wells)
    extra, refill = (
        alike * sum(each) for each in ([w.extra for w in wells], [w.refill for w in wells])
    )
    filled = bowl_level(
        bowl,
        supply,
        now.bowl.level,
        asked=now.air.asked,
        away=taken + refill + now.bowl.vapour,
        duration=duration,
        pumping=now.speed >= REST,
    )
    jets = filled.covered * now.air.asked
    warmed = bowl_warmth(
        boiler_of(car, now, ignition=ignition),
        car.weather,
        fuel,
        now.bowl._replace(level=filled.level),
        mass=supply.density * bowl.bowl_area * max(filled.level, DREGS),
        fuel_flow=jets,
        coolant=now.coolant,
        duration=duration,
    )
    metered = jets + extra + now.shot
    books = now.books.after(
        duration,
        bowl_in=filled.inflow,
        jets=jets + refill,
        pumped=taken,
        boiled=now.bowl.vapour,
        spilled=filled.spilled,
        metered=metered,
    )
    depths = tuple(each.depth for each in wells)
    return now._replace(wells=depths, bowl=warmed, metered=metered, books=books)


def _wells(car: Car, now: Motion, duration: float) -> list[WellStep]:
    """Return the well of each barrel told apart a step on."""
    density = liquid.density(car.fuel, _fuel_warmth(now))
    rigs = [car.rig, car.other] if car.other else [car.rig]
    circuits = [rig.high_speed or car.rig.high_speed for rig in rigs]
    settled = well_depths(circuits, now.network, density)
    nozzles = now.network.flows.nozzle.fuel if now.air.asked else [0.0] * len(settled)
    return [
        well_step(circuit, depth, there, nozzle, density=density, duration=duration)
        for circuit, depth, there, nozzle in zip(circuits, now.wells, settled, nozzles, strict=True)
    ]


def _carried(car: Car, now: Motion, duration: float) -> Motion:
    """Return everything with the fuel a step further on its way to the cylinders."""
    rig, breath = car.rig, now.air
    wall = wetting(
        rig.wall_film, rig.engine.displacement, breath.pressure, breath.taken, now.coolant
    )
    film = film_step(wall, now.film, now.metered, duration)
    purged, load = 0.0, now.load
    if rig.canister is not None:
        purged = sorption(rig.canister, load, 0.0, breath.purge).purged
        load -= duration * purged
    arrived = now.metered - (film - now.film) / duration + purged
    charge = charge_step(now.charge, arrived, breath.taken, breath.held, duration)
    books = now.books.after(
        duration,
        air_in=breath.inflow,
        air_taken=breath.taken,
        purged=purged,
        drawn=charge * breath.taken / breath.held,
    )
    return now._replace(film=film, charge=charge, load=load, books=books)


def _driven(car: Car, now: Motion, controls: Controls, duration: float) -> Motion:
    """Return everything with the fire of this step, and the speed after it."""
    breath = now.air
    if now.speed < REST:
        return now._replace(speed=0.0, ran=-1.0, burning=NOTHING)
    sparks = controls.ignition and (controls.starter or now.speed >= STALL)
    burnt = burning(
        car.rig,
        car.weather,
        car.fuel,
        breath.state,
        now.charge * breath.taken / breath.held,
        speed=now.speed,
        coolant=now.coolant,
        ignition=sparks,
    )
    speed, road = now.speed, controls.road
    if controls.speed is None:
        falls = burnt.falls * breath.answered + 2.0 * road.square * speed
        left = burnt.torque - road.torque(speed)
        speed = speed_step(speed, left, falls, car.rig.engine.inertia + road.inertia, duration)
        if controls.starter:
            speed = max(speed, car.rig.hot_soak.crank_speed)
    runs = sparks and speed >= STALL
    ran = (now.ran + duration if now.running else 0.0) if runs else -1.0
    return now._replace(speed=speed, ran=ran, burning=burnt)


def _warmed(car: Car, now: Motion, duration: float) -> Motion:
    """Return everything with coolant, choke and start timer a step on."""
    rig, outside, running = car.rig, car.weather.temperature, now.running
    warm = coolant_step(rig.hot_soak, now.coolant, outside, duration, running=running)
    timed = enriched(rig.cold_start, warm, now.ran, vacuum=now.vacuum)
    now = now._replace(coolant=warm, enrichment=timed)
    return now if rig.choke is None else _choked(car, now, duration)


def _choked(car: Car, now: Motion, duration: float) -> Motion:
    """Return everything with coil and choke plate a step on."""
    choke, outside = car.rig.choke, car.weather.temperature
    coil = coil_step(choke, now.coil, outside, duration, heated=now.running)
    plate = plate_step(
        choke,
        car.rig.air_path,
        car.weather,
        now.choke,
        coil=coil,
        air_flow=now.network.flows.choke if now.speed else 0.0,
        vacuum=now.vacuum,
        throttle=now.throttle,
        duration=duration,
    )
    return now._replace(coil=coil, choke=plate)
