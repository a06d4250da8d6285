"""The trade table of constants and the pure rules on top of it."""
