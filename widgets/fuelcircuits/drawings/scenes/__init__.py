"""The numbered section of each circuit, by the circuit's noun: one file a circuit."""
