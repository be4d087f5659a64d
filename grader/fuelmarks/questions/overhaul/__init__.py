"""Unit 13: questions of the overhaul."""
