"""Text messages through a keeper's own phone, on the local network."""
