"""Benchlog: the bench record of an oil filter teardown, from the plan to the viewers' sheet."""

__version__ = "0.1.0"
