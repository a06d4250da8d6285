"""Text messages: alphabet, lengths, parts; and the carriers that bring them to phones."""
