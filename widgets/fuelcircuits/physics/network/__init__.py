"""The whole carburettor as one network: rig, equations, solving, state."""
