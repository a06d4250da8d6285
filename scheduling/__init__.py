"""Bees, time and records: what happened in each unit and what is due when.

Nothing in here knows of people's messages; ``bot`` imports this package, never the reverse.
"""
