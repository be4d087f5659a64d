"""What holds for every test: examples do not differ from run to run, nor fail on a busy machine."""

from hypothesis import settings

settings.register_profile("repeatable", deadline=None, derandomize=True, max_examples=50)
settings.load_profile("repeatable")
