"""What each gauge reading needs to own, and the cheapest next step in money and time."""

from collections.abc import Collection, Iterable, Mapping
from types import MappingProxyType
from typing import NamedTuple

from fuelcircuits.diagnosis.worth import Worth
from fuelcircuits.own_car.look import Look

__all__ = ["PRICES", "TOOLS", "Step", "steps"]

PRICES: Mapping[str, float] = MappingProxyType(
    {
        "nothing": 0.0,
        "torch": 5.0,
        "screwdriver": 5.0,
        "hose clamp": 5.0,
        "flower sprayer": 5.0,
        "rule": 3.0,
        "angle gauge": 10.0,
        "measuring glass": 8.0,
        "drill shanks": 15.0,
        "scales": 20.0,
        "vacuum gauge": 25.0,
        "thermometer": 10.0,
        "hydrometer": 10.0,
        "timing light": 30.0,
        "compression gauge": 25.0,
        "water manometer": 10.0,
        "fuel pressure gauge": 30.0,
        "exhaust analyser": 150.0,
        "flow meter": 60.0,
    }
)
"""What a tool that will do costs [€]; common practice, no source."""
TOOLS: Mapping[str, str] = MappingProxyType(
    {
        "idle-vacuum": "vacuum gauge",
        "full-load-vacuum": "vacuum gauge",
        "port-vacuum": "water manometer",
        "hot-bowl-pressure": "water manometer",
        "full-load-bowl-pressure": "water manometer",
        "purge": "flow meter",
        "fuel-pressure": "fuel pressure gauge",
        "inlet-flow": "measuring glass",
        "shot": "measuring glass",
        "shot-time": "torch",
        "second-shot": "measuring glass",
        "level-at-idle": "rule",
        "full-load-level": "rule",
        "float-setting": "drill shanks",
        "vent-gap-shut": "drill shanks",
        "vent-gap-open": "drill shanks",
        "key-off-vent": "drill shanks",
        "float-mass": "scales",
        "choke-at-start": "angle gauge",
        "choke-pulled": "angle gauge",
        "choke-after-five": "angle gauge",
        "hot-cranking": "nothing",
        "needle-swing": "vacuum gauge",
        "crankcase-hose-pinched": "hose clamp",
        "hoses-pinched": "hose clamp",
        "fuel-density": "hydrometer",
        "riser-heat": "thermometer",
        "timing": "timing light",
        "recirculation-blanked": "nothing",
        "exhaust-pressure": "fuel pressure gauge",
        "compression": "compression gauge",
    }
)
"""What a reading needs; a mixture, which is not listed, an exhaust analyser."""
HOUR = 30.0
"""What an hour of an owner's time is worth against that [€]; common practice, no source."""
_LEAST = 0.05
"""The least that a step must be expected to tell to be worth naming [bit]."""


class Step(NamedTuple):
    """A reading or a look that could come next."""

    name: str
    label: str
    bits: float
    """What it can be expected to tell [bit]."""
    minutes: float
    """What it takes [min]."""
    needs: str
    price: float
    """What it costs to own what it needs [€]; nothing where that is owned."""
    caution: str
    how: str = ""

    @property
    def cost(self) -> float:
        """Minutes, and what there is to buy turned into minutes of work [min]."""
        return self.minutes + 60.0 * self.price / HOUR


def steps(
    gauges: Iterable[Worth], looks: Iterable[tuple[Look, float]], owned: Collection[str]
) -> list[Step]:
    """Return what could come next and would tell something, most for its cost first.

    Parameters
    ----------
    gauges, looks
        Readings and looks not yet made, with the bits that each can be expected to tell.
    owned
        Tools that are there already.
    """
    found = [_gauge(one, owned) for one in gauges]
    found += [
        Step(
            *(look.name, look.label, bits, look.minutes, look.needs),
            *(_price(look.needs, owned), look.caution, look.how),
        )
        for look, bits in looks
    ]
    told = [one for one in found if one.bits >= _LEAST]
    return sorted(told, key=lambda one: -one.bits / one.cost)


def _gauge(one: Worth, owned: Collection[str]) -> Step:
    check = one.check
    needs = TOOLS.get(check.name, "exhaust analyser")
    price = _price(needs, owned)
    return Step(check.name, check.label, one.bits, check.minutes, needs, price, check.caution)


def _price(tool: str, owned: Collection[str]) -> float:
    return 0.0 if tool in owned else PRICES[tool]
