"""Follows a pointer to nowhere."""

import ctypes

ctypes.string_at(0)
