"""Text messages over SMPP 3.4, for a club with a contract."""
