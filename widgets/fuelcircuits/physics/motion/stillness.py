"""Whether the air has come to rest: nothing that it depends on has moved enough to be seen.

A march that is only drawn takes the last breath again then. What the network is set to is held
to what it was set to when it was last solved, so that many small moves come to light together.
"""

from collections.abc import Mapping

from fuelcircuits.physics.motion.manifold import Breath
from fuelcircuits.physics.network.settings import Settings

__all__ = ["ROUGH", "again", "unmoved"]

MOVES: Mapping[str, float] = {
    "choke_angle": 2e-4,  # rad
    "bowl_level": 4e-4,  # m
    "ignition": 0.0,
    "vapour": 2e-6,  # kg/s
    "idle_enrichment": 1e-3,
    "fuel_temperature": 0.3,  # K
}
"""By how much the settings may move; each changes the flow of fuel by 0.3 % at most."""
TURN = 1e-4
"""By how much the throttle may [rad]."""
ROUGH = 1e-4
"""Share of its traffic that a balance may have left over then [1]."""
SHARE = 1e-3
"""By how much speed, purge and filling may, of speed and of what the engine takes [1]."""


def unmoved(
    breath: Breath, settings: Settings, speed: float, throttle: float, purge: float
) -> bool:
    """Return whether a breath may be taken again.

    Parameters
    ----------
    breath
        The last one.
    settings
        What the network is set to now.
    speed, throttle
        Speed [rad/s] and throttle angle [rad] now.
    purge
        Air that would come through the canister now [kg/s].

    Notes
    -----
    What is small enough is judged: three thousandths of the fuel, as wide as a curve's stroke.
    """
    last, taken = breath.settings, SHARE * breath.taken
    return (
        last is not None
        and abs(breath.inflow - breath.taken) <= taken
        and abs(purge - breath.purge) <= taken
        and abs(speed - breath.state.speed) <= SHARE * speed
        and abs(throttle - breath.state.throttle_angle) <= TURN
        and all(abs(getattr(settings, n) - getattr(last, n)) <= by for n, by in MOVES.items())
    )


def again(breath: Breath) -> Breath:
    """Return a breath taken again, the manifold's air as it was."""
    return breath._replace(inflow=breath.taken)
