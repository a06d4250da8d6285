"""The ways a message travels: console, Telegram."""
