"""The ways a message travels: console, Telegram, text messages, e-mail."""
