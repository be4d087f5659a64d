"""Air, fuel, and what they make: weather, blends, evaporation, exhaust gas."""
