"""Drawings that trainees see: sections of a rig, sketches of questions, the atlas, gauges.

Every drawing is worked out from a rig's card or from the numbers of a question; none has a number
typed into it that a card holds. A drawing is a `Picture`: SVG that stands alone, in light, dark
and on paper, with a text alternative.
"""
