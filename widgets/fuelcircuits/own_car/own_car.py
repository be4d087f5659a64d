"""An owner's car in a notebook: card, days, report, outlook, and a page for the glove box."""

from collections.abc import Callable, Collection, Sequence
from pathlib import Path

from fuelcircuits.answer_sheet.early import install_here
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.own_car.beside import Beside, beside
from fuelcircuits.own_car.card import OwnCard, open_card
from fuelcircuits.own_car.day_form import DayForm
from fuelcircuits.own_car.fitting import Fit, fit
from fuelcircuits.own_car.following import Following
from fuelcircuits.own_car.form import CardForm
from fuelcircuits.own_car.glove_box import GloveBox, glove_box
from fuelcircuits.own_car.healthy import healthy
from fuelcircuits.own_car.outlook import Outlook, what_if
from fuelcircuits.own_car.readings import ReadingError, understood
from fuelcircuits.own_car.report import Report, diagnose
from fuelcircuits.own_car.rounds import Round, Rounds, open_rounds
from fuelcircuits.physics.network.rig import Rig

__all__ = ["OwnCar"]

WOULD_NOT_RUN = "After this change the engine would not run at one of these loads."
MOVED = (
    "Your card as entered describes no engine that runs well, so it was first moved as in the "
    "report."
)


class OwnCar:
    """A car whose card and days lie in two files of the folder.

    ::

        car = OwnCar("my-car")
        car.card_form()       # fill the card in: my-car.toml
        car.day_form()        # what was read and done today: my-car-days.toml
        car.report()          # what it comes to
        car.before_and_after()
        car.glove_box()       # a page to print
    """

    def __init__(self, name: str = "my-car", *, owns: Collection[str] = ()) -> None:
        self.card_path, self.days_path = Path(f"{name}.toml"), Path(f"{name}-days.toml")
        self.owns = frozenset(owns)
        self._following = Following()
        self._days: dict[str, DayForm] = {}
        install_here()

    @property
    def card(self) -> OwnCard:
        """The card as it lies in its file; an empty one if there is none yet."""
        return open_card(self.card_path) if self.card_path.is_file() else OwnCard()

    @property
    def rounds(self) -> Rounds:
        """Every day, as they lie in their file."""
        return open_rounds(self.days_path)

    def card_form(self) -> CardForm:
        """Return the form that fills the card in; reports below a day's form follow it."""
        return CardForm(self.card_path, self._card_changed)

    def day_form(self, day: str = "") -> DayForm:
        """Return the form of a day: today, or one given as ``"2026-05-02"``.

        Below it stands a report that follows what is written there, and in the form of the card.
        """
        form = DayForm(
            *(self.rounds, self.card.rig, day),
            steps=lambda now: self._following.steps(self.card, now, self.owns),
        )
        self._days[form.day] = form
        return form

    def report(self, day: str = "") -> Report:
        """Return what the readings of a day come to: the last day's, or one given.

        Raises
        ------
        CardError, ReadingError
            If card or days cannot be used, or nothing was written down on that day.
        """
        card, now = self.card, self._round(day)
        return diagnose(
            card.rig,
            now.readings,
            weather=now.weather,
            fuel=now.fuel,
            measured=card.measured,
            ran_well=card.usual,
            seen=now.seen,
            owned=self.owns,
        )

    def before_and_after(self, first: str = "", second: str = "") -> Beside:
        """Return two days side by side: the last two, or two given."""
        every = self.rounds.every
        if not (first and second) and len(every) < 2:
            return Beside(None, Round(""), [])
        before = self._round(first) if first else every[-2]
        after = self._round(second) if second else every[-1]
        return beside(before, after)

    def what_if(
        self,
        change: Callable[[Rig], Rig] = lambda rig: rig,
        *,
        altitude: float | None = None,
        temperature: float | None = None,
        ethanol: float | None = None,
    ) -> Outlook:
        """Return what the healthy car would read before and after a change.

        Where the card as entered describes no engine that runs well, it is first moved as little
        as makes it one, as in the report.

        Parameters
        ----------
        change
            What is changed on the carburettor.
        altitude, temperature, ethanol
            Where it goes [m, degC], and the share of ethanol in the fuel there [1]; as on the
            last day, or at sea level on petrol, if not given.

        Raises
        ------
        ReadingError
            If a number is out of its range, or the engine would not run so.
        CardError
            If the card cannot be used.
        """
        here, card = self.rounds.last or Round(""), self.card
        there = Round(
            "",
            here.altitude if altitude is None else altitude,
            here.temperature if temperature is None else temperature,
            here.ethanol if ethanol is None else ethanol,
        )
        try:
            now = healthy(
                card.rig, here.weather, here.fuel, measured=card.measured, ran_well=card.usual
            )
            found = what_if(
                now.warmed.rig,
                change,
                weather=here.weather,
                fuel=here.fuel,
                other_weather=there.weather,
                other_fuel=there.fuel,
            )
        except ConvergenceError as error:
            raise ReadingError(f"{WOULD_NOT_RUN} The model says: {error}") from error
        except RangeError as error:
            raise ReadingError(str(error)) from error
        mended = f" {MOVED}" if now.strange else ""
        return found._replace(note=f"Before: {here.where}. After: {there.where}.{mended}")

    def fit(self, entries: Sequence[str], day: str = "") -> Fit:
        """Return the values of entries that suit a good day's readings best, with their doubt.

        Parameters
        ----------
        entries
            What could not be measured, such as ``["low_speed.economizer_bore"]``.
        day
            A day on which the car ran well; the last if not given.
        """
        now = self._round(day)
        readings = understood(now.readings, now.fuel)
        return fit(self.card.rig, readings, entries, now.weather, now.fuel)

    def glove_box(self, path: str = "glove-box.html") -> GloveBox:
        """Write a page to print for the glove box, and say where it lies."""
        return glove_box(self.card, self.rounds, Path(path))

    def _card_changed(self) -> None:
        """Have the report of every day that is open follow the card."""
        for form in self._days.values():
            form.follow()

    def _round(self, day: str) -> Round:
        """Return a day that was written down, or the last; an empty one before the first."""
        rounds = self.rounds
        if not day:
            return rounds.last or Round("")
        found = rounds.of(day)
        if found is None:
            known = ", ".join(one.day for one in rounds.every) or "none"
            raise ReadingError(f"day must be one that was written down ({known}), got {day}")
        return found
