"""A report that follows what is written down: what the car would show is worked out once a card."""

import json
from collections.abc import Collection, Iterator
from threading import Lock
from typing import NamedTuple

from fuelcircuits.diagnosis.checks import fitting
from fuelcircuits.diagnosis.march import March
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.foreseen import Foreseen, foreseeing, to_make
from fuelcircuits.own_car.looks import answers_of
from fuelcircuits.own_car.readings import understood
from fuelcircuits.own_car.report import Report, ranked, whole
from fuelcircuits.own_car.rounds import Round

__all__ = ["Followed", "Following"]


class Followed(NamedTuple):
    """A report, and whether it is whole or only ranks the suspects as yet."""

    report: Report
    whole: bool


class _Work:
    """What is being worked out for a card; whoever waits for it takes turns, thread by thread."""

    def __init__(self, wanted: str, march: March[Foreseen]) -> None:
        self.wanted = wanted
        self._march = march
        self._end: Foreseen | CircuitError | None = None
        self._lock = Lock()

    def step(self) -> Foreseen | float:
        """Go a step on to what the car would show; return that, or what share of it is done."""
        with self._lock:
            try:
                if self._end is None:
                    return next(self._march)
            except StopIteration as end:
                self._end = end.value
            except CircuitError as error:
                self._end = error
        if isinstance(self._end, CircuitError):
            raise self._end
        assert self._end is not None  # the march has ended with it
        return self._end


class Following:
    """The reports on one car, as its readings come in; a kernel may ask in several threads."""

    def __init__(self) -> None:
        self._work: _Work | None = None
        self._lock = Lock()

    def steps(
        self, card: OwnCard, now: Round, owned: Collection[str] = ()
    ) -> Iterator[float | Followed]:
        """Yield what share is done of the work for a card [1], then the suspects, then all.

        The work for a card, in the air and on the fuel of a day, is done once; it goes on where
        it was left.

        Parameters
        ----------
        card, now
            The car's card, and what was read and seen on a day.
        owned
            Tools that need not be bought.

        Raises
        ------
        CircuitError
            If the card or the day cannot be used.
        """
        names = {check.name for check in fitting(card.rig, around=True)}
        kept = {name: text for name, text in now.readings.items() if name in names}
        known, looked = understood(kept, now.fuel), answers_of(now.seen)
        work = self._begun(card, now, known)
        while isinstance(found := work.step(), float):
            yield found
        report = ranked(found, known, looked)
        yield Followed(report, whole=False)
        yield Followed(whole(report, owned), whole=True)

    def _begun(self, card: OwnCard, now: Round, known: Collection[str]) -> _Work:
        """Return the work on what a car would show: what is begun, or another for another car."""
        checks = to_make(card.rig, known)
        names = sorted(check.name for check in checks)
        wanted = json.dumps([card.text(), now.altitude, now.temperature, now.ethanol, names])
        with self._lock:
            if self._work is None or self._work.wanted != wanted:
                march = foreseeing(
                    *(card.rig, checks, now.weather, now.fuel),
                    measured=card.measured,
                    ran_well=card.usual,
                )
                self._work = _Work(wanted, march)
            return self._work
