"""The class server: the hub, its exchange, and the way to set them up."""
