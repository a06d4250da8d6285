"""Messages in and messages out, none lost."""
