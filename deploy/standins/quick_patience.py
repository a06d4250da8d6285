"""Waits between the tries of a Telegram channel that are short enough for tests and proofs."""

from datetime import timedelta

from bot.channels.telegram import Patience

QUICK = Patience(
    first=timedelta(milliseconds=10),
    longest=timedelta(milliseconds=40),
    other_poller=timedelta(milliseconds=20),
)
"""Waits short enough for tests."""
