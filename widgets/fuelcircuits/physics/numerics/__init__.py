"""Roots, ordinary differential equations and stiff systems."""
