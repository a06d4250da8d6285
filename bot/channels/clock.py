"""The present instant, for what a carrier does not date."""

from collections.abc import Callable
from datetime import UTC, datetime

Clock = Callable[[], datetime]
"""Gives the present instant, aware, in UTC."""


def present() -> datetime:
    """Give the present instant."""
    return datetime.now(UTC)
