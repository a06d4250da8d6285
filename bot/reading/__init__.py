"""A reply in plain words becomes entries, questions or a command."""
