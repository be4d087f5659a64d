"""Live pages: the benches whole in any browser, computed there by the very same Python."""
