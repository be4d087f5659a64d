"""Imports the reference answers of the exercises."""

from importlib import import_module

print("SUCCEEDED", import_module("fuelmarks.questions"))
