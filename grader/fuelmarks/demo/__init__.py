"""An invented class from the first hand-out to the reports."""
