"""How an instant is kept: aware and in UTC, on every database."""

from datetime import UTC, datetime

from sqlalchemy import DateTime, Dialect
from sqlalchemy.types import TypeDecorator


class Instant(TypeDecorator[datetime]):
    """A column of aware UTC instants; a naive one is refused, because nobody knows its zone."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(
        self,
        value: datetime | None,
        dialect: Dialect,  # noqa: ARG002 - SQLAlchemy's form
    ) -> datetime | None:
        """Turn any aware instant into UTC.

        Raises:
            ValueError: the instant is naive.
        """
        if value is None:
            return None
        if value.utcoffset() is None:
            raise ValueError(f"{value} has no time zone; an instant must be aware")
        return value.astimezone(UTC)

    def process_result_value(
        self,
        value: datetime | None,
        dialect: Dialect,  # noqa: ARG002 - SQLAlchemy's form
    ) -> datetime | None:
        """Give the instant back in UTC; SQLite forgets the zone, other databases use their own."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)
