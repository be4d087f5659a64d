"""What several benches show of the whole carburettor."""
