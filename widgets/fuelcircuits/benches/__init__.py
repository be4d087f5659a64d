"""Benches: one simulator a circuit, to be played with beside the text."""

from fuelcircuits.benches.bench import Bench
from fuelcircuits.benches.float_bowl import FloatBench

__all__ = ["Bench", "FloatBench"]
