"""How a two-barrel carburettor meters fuel: physics, simulators and answer sheets."""
