"""What is due is found by an index for the weather too, and a pace tells when it was noted.

Revision ID: 0008_due_by_index
"""

from datetime import UTC, datetime

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0008_due_by_index"
down_revision = "0007_heartbeats"

_SINCE_EVER = datetime(1970, 1, 1, tzinfo=UTC)

_NEVER_ASKED = """
    INSERT INTO weather_asked (yard_id, latitude, longitude, answered_at, failures, next_at)
    SELECT id, latitude, longitude, NULL, 0, :since FROM yard
    WHERE latitude IS NOT NULL AND id NOT IN (SELECT yard_id FROM weather_asked)
"""

_MOVED = """
    UPDATE weather_asked SET next_at = :since WHERE EXISTS (
        SELECT 1 FROM yard WHERE yard.id = weather_asked.yard_id AND (
            yard.latitude <> weather_asked.latitude OR yard.longitude <> weather_asked.longitude
        )
    )
"""


def upgrade() -> None:
    """Let every yard with a place stand in the table of who is asked for."""
    for statement in (_NEVER_ASKED, _MOVED):
        since = sa.bindparam("since", _SINCE_EVER, Instant())
        op.execute(sa.text(statement).bindparams(since))
    op.add_column("pace", sa.Column("noted_at", Instant(), nullable=True))
