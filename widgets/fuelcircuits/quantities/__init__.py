"""Quantities with units: what people type, and how a unit is written."""
