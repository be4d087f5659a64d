"""Benches: one simulator a circuit, to be played with beside the text."""

from fuelcircuits.benches.bench import Bench

__all__ = ["Bench"]
