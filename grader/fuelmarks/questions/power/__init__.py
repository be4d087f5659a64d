"""The questions of unit 07: power enrichment."""
