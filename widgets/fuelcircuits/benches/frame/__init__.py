"""The frame that every bench stands in: controls, state, drawing, plot, page."""
