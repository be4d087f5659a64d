"""Unit 14: questions of what is around the carburettor."""
