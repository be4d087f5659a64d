"""The instructor's book: what a class's results say, as pages, tables and CSV."""
