"""One simulator a module, with the same stem as the physics it shows."""
