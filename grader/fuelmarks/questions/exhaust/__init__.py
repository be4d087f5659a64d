"""The questions of unit 10: mixture and exhaust gas."""
