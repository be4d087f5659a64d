"""The questions of unit 09: the choke and cold start."""
