"""Gauges drawn with a reading on them: dial, water column, feeler leaves, depth rule, pins.

The scales are drawn true; what is to be read is written nowhere, neither in the drawing nor in
its text alternative.
"""
