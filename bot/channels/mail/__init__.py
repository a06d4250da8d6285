"""E-mail: the free last fallback, for mornings and the answers to them."""
