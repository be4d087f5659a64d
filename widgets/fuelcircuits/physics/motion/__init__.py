"""What moves in time: heat, vapour, pump shot, manifold filling, a drive."""
