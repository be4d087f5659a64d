"""Every sketch by its name, with how many numbers it takes."""

from collections.abc import Callable, Mapping
from inspect import signature

from fuelcircuits.drawings.gauges.column import column
from fuelcircuits.drawings.gauges.dial import dial
from fuelcircuits.drawings.gauges.leaves import leaves
from fuelcircuits.drawings.gauges.pins import pins
from fuelcircuits.drawings.gauges.rule import rule
from fuelcircuits.drawings.picture import Picture
from fuelcircuits.drawings.sketches.canister import parked, purged
from fuelcircuits.drawings.sketches.cones import nozzle, screw
from fuelcircuits.drawings.sketches.gaps import arch, bow, collar, shaft
from fuelcircuits.drawings.sketches.holes import ball, flap, plunger, ring_open, seat
from fuelcircuits.drawings.sketches.lever import lever
from fuelcircuits.drawings.sketches.plates import corner, leaf, plate, shadow, slot
from fuelcircuits.drawings.sketches.pulley import pulley
from fuelcircuits.drawings.sketches.pushes import coil, diaphragm, piston, wings
from fuelcircuits.drawings.sketches.vents import hoses, leak, shared

__all__ = ["SKETCHES", "takes"]

SKETCHES: Mapping[str, Callable[..., Picture]] = {
    "dial": dial,
    "column": column,
    "leaves": leaves,
    "rule": rule,
    "pins": pins,
    "plate": plate,
    "slot": slot,
    "shadow": shadow,
    "ring": ring_open,
    "seat": seat,
    "lever": lever,
    "ball": ball,
    "flap": flap,
    "plunger": plunger,
    "screw": screw,
    "nozzle": nozzle,
    "coil": coil,
    "piston": piston,
    "diaphragm": diaphragm,
    "hoses": hoses,
    "bow": bow,
    "arch": arch,
    "shaft": shaft,
    "collar": collar,
    "corner": corner,
    "leaf": leaf,
    "wings": wings,
    "pulley": pulley,
    "leak": leak,
    "shared": shared,
    "purged": purged,
    "parked": parked,
}
"""What draws each sketch; it takes a `Number` for each of its parameters."""


def takes(name: str) -> tuple[str, ...]:
    """Return what the numbers of a sketch are, in their order."""
    return tuple(signature(SKETCHES[name]).parameters)
