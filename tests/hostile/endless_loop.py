"""Never ends."""

while True:
    pass
