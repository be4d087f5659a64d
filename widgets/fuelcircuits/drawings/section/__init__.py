"""Sections of a rig: the whole carburettor cut open along one barrel, or one circuit of it.

All are cut alike: the bowl lies left of the bore, air comes from above, and the idle passage lies
in the bore's left wall. What stands between bowl and bore is unrolled into the plane of the paper.
"""
