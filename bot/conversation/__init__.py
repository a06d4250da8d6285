"""One turn of a conversation: read, record, work out anew, answer."""
