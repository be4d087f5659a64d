"""Is lost in C code, where no Python signal handler runs."""

print(len(str(7 ** (10**9))))
