"""How the page names a suspect, and how sure it says it is."""

from fuelcircuits import faults
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.own_car.findings import Findings

__all__ = ["LIKELY", "meaning", "percent", "sure", "words"]

LIKELY = 0.03
"""Least share that is told as a number [1]."""


def percent(share: float) -> str:
    """Return a share as people say it: never more exact than it is."""
    return "under 3 %" if share < LIKELY else f"{min(round(100 * share), 99)} %"


def sure(report: Findings, name: str) -> str:
    """Return how likely a suspect is, and how far that can be argued about."""
    band, likely = report.bands[name], report.likely(name)
    if band.most - band.least < 0.06:
        return percent(likely)
    return f"{percent(likely)}, {round(100 * band.least)} to {percent(band.most)}"


def words(name: str) -> str:
    """Return what a suspect is called."""
    return "nothing wrong" if name == HEALTHY else name.replace("-", " ")


def meaning(name: str) -> str:
    """Return what it means that this is so."""
    return "The carburettor is as on the card." if name == HEALTHY else faults.find(name).meaning
