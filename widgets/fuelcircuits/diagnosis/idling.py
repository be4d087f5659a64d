"""A car with its throttle on a stop, at one speed after another, and where it idles there."""

from collections.abc import Callable

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.engine.engine import Engine
from fuelcircuits.physics.engine.torque import brake_torque, torque_factor
from fuelcircuits.physics.motion.burning import burnt_gas
from fuelcircuits.physics.motion.fire import firing_share
from fuelcircuits.physics.network.starts import moved, through
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.root import root

__all__ = ["FALLING", "OnStop", "fired_torque", "idling"]

FALLING = (1.0, 0.95, 0.9, 0.85, 0.8, 0.75)  # of the idle speed; below, it stalls (judged)
_RISING = (1.1, 1.3, 1.6, 2.0, 2.5, 3.0)  # of it, up to which an idle is looked for
_SETTLED = 1e-5  # width of an idle speed that has been found, as a share of it
_NOT_BURNING = 3.0  # lambda, beyond which torque is not asked for
_NEAREST = 3  # states, through whose pressures a parabola leads to where the next is looked for


class OnStop:
    """The states of a car with its throttle on a stop, by speed: each is solved once.

    What the carburettor delivers hangs on nothing else, whatever the spark and whether every
    cylinder works: cars that differ in these alone have the same states.

    Parameters
    ----------
    solve
        What returns the state at a speed [rad/s], from a start.
    start
        A state nearby.
    near
        The same of a car much like it.
    """

    def __init__(
        self,
        solve: Callable[[float, State], State],
        start: State,
        near: "OnStop | None" = None,
    ) -> None:
        self._solve, self._start, self._near = solve, start, near
        self._known: dict[float, State | ConvergenceError] = {}

    def copy(self) -> "OnStop":
        """Return the same for a car that draws the same, with what has been solved so far."""
        other = OnStop(self._solve, self._start, self._near)
        other._known = dict(self._known)
        return other

    def at(self, speed: float) -> State:
        """Return the state at a speed [rad/s]; raise `ConvergenceError` if there is none.

        That is found out once, for nothing takes longer.
        """
        if speed not in self._known:
            try:
                self._known[speed] = self._solve(speed, self._begin(speed))
            except ConvergenceError as error:
                self._known[speed] = error
        if isinstance(state := self._known[speed], ConvergenceError):
            raise state
        return state

    def solved(self) -> dict[float, State]:
        """Return the states that have been solved, by speed."""
        return {speed: one for speed, one in self._known.items() if isinstance(one, State)}

    def _begin(self, speed: float) -> State:
        """Return where to begin.

        That is as far from the car nearby as at the nearest speed where both are known, or else on
        a parabola through the states at the nearest speeds.
        """
        own, near = self.solved(), self._near.solved() if self._near else {}
        if speed in near:
            both = sorted(own.keys() & near.keys(), key=lambda one: abs(one - speed))
            return moved(near[speed], near[both[0]], own[both[0]]) if both else near[speed]
        if not own:
            return self._start
        nearest = sorted(own, key=lambda one: abs(one - speed))[:_NEAREST]
        return through([own[one] for one in nearest], nearest, speed)


def fired_torque(engine: Engine, state: State) -> float:
    """Return the brake torque in a state, with those cycles that fire [N m]."""
    manifold, lean = state.pressures.manifold, min(state.mixture, _NOT_BURNING)
    gas = burnt_gas(engine, state.air_flow, manifold, state.ambient_pressure)
    return brake_torque(
        engine,
        state.speed,
        state.air_flow,
        manifold,
        state.ambient_pressure,
        mixture_factor=firing_share(lean, gas) * torque_factor(lean),
    )


def idling(gains: Callable[[float], float], usual: float) -> float | None:
    """Return the speed at which an engine neither gains nor loses [rad/s]; none where it stalls.

    Parameters
    ----------
    gains
        The torque that is left over at a speed [N m].
    usual
        The speed at which it idled when its stop was set [rad/s].
    """
    runs = next((share for share in FALLING if gains(share * usual) >= 0.0), None)
    if runs is None:
        return None
    beyond = [share for share in FALLING if share > runs][-1:] or _RISING
    ends = (share * usual for share in beyond)
    low, high = runs * usual, next((each for each in ends if gains(each) < 0.0), None)
    if high is None:
        return None
    return root(gains, low, high, name="idle speed", tolerance=_SETTLED)
