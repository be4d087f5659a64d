"""Servers and kernels of trainees, forked from processes that have imported everything already.

This folder is copied by itself into the trainees' environment, so it needs Jupyter and Python's own
library alone.
"""
