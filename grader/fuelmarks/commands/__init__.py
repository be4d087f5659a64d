"""The command ``fuelmarks``: one file a command."""
