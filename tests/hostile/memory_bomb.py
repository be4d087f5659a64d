"""Takes all the memory in one process."""

hoard = []
while True:
    hoard.append(bytearray(b"x") * (64 << 20))
