"""Waits between the tries of a Telegram channel that are short enough for tests and proofs."""

from datetime import timedelta

from bot.backoff import Backoff
from bot.channels.telegram.retry import Retry

QUICK = Retry(
    Backoff(timedelta(milliseconds=10), timedelta(milliseconds=40)),
    other_poller=timedelta(milliseconds=20),
)
"""Waits short enough for tests."""
