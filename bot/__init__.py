"""People and messages: what they write is read, answered and sent."""
