"""One step of a conversation: read, record, work out anew, answer."""
