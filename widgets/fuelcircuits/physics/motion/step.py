"""One step of everything that moves: what `drive` marches, and what a live page asks for.

The network gives the flows of an instant against what engine and filling manifold want. Around
it move wells, pump, wall film, charge, fire and crankshaft, the bowl with its heat, what a hot
soak has left in the intake, the choke with coil and cam, and the cold-start timer. `stepped`
takes all of them one step on::

    car = Car(rig, weather, fuel, stop)
    now = begun(car, Start.warm(rig, weather))
    while True:
        now = stepped(car, now, Controls(pedal=0.3), 0.02)
        now.speed, now.vacuum, now.burning.mixture, now.network.fuel_by_circuit

Its interface is `set_up`, `begun` and `Start` (in `start`), `Car`, `Controls` and `Motion` (in
`moving`), and here `stepped`. A `Motion` is a value: nothing is kept between steps, the same
pedal gives the same numbers, and any moment can be gone on from. `settings.settings_of` gives
what the steady network needs to show the same moment in another bench.

What it does not do
-------------------
The film's powers and the fire's limits were fitted to what drivers report, not to a measured
trace. Against that report it misses: from a tenth of the pedal upward an engine without its pump
never sags. It leaves out: unlike cylinders and cycles but for a spread in `fire`, pulsation of
the air, ice, fuel that evaporates in wells and nozzles, the inertia of fuel in jets and channels
(4 to 15 ms), the time from intake to exhaust, and that exhaust which is let back takes time to
mix in.
"""

from fuelcircuits.errors import positive
from fuelcircuits.physics.motion.induction import carried, inhaled
from fuelcircuits.physics.motion.linkage import linked
from fuelcircuits.physics.motion.manifold import Breath
from fuelcircuits.physics.motion.metering import metered, pumped
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.running import driven
from fuelcircuits.physics.motion.warming import warmed

__all__ = ["stepped"]


def stepped(
    car: Car,
    now: Motion,
    controls: Controls,
    duration: float,
    *,
    air: Breath | None = None,
    drawn: bool = False,
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
    drawn
        Whether what comes of it is only drawn, so that the air need be no truer than a curve's
        stroke: `fuelcircuits.physics.motion.stillness`.

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
    now = linked(car, now, controls, duration)
    now = warmed(car, now, duration, ignition=controls.ignition)
    now, taken = pumped(car, now, duration)
    air = air or inhaled(car, now, duration, ignition=controls.ignition, drawn=drawn)
    now = now._replace(air=air)
    now = metered(car, now, taken, duration, ignition=controls.ignition)
    now = carried(car, now, duration)
    return driven(car, now, controls, duration)
