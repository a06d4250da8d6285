"""Mornings made ready ahead of their hour.

Revision ID: 0015_ready_mornings
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0015_ready_mornings"
down_revision = "0014_weather_by_day"

_NOT_READY = "(ready_for IS NULL OR ready_for != next_morning_at)"


def upgrade() -> None:
    """Make room for texts worded ahead, and find by index whose is still to be worded."""
    op.create_table(
        "ready_morning",
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("made_of", sa.String(64), nullable=False),
        sa.Column("parts", sa.JSON(), nullable=False),
        sa.Column("buttons", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("person_id", name="pk_ready_morning"),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name="fk_ready_morning_person_id"),
    )
    op.add_column("person", sa.Column("ready_for", Instant(), nullable=True))
    op.create_index(
        "ix_person_not_ready",
        "person",
        ["next_morning_at"],
        sqlite_where=sa.text(f"stopped IS 0 AND {_NOT_READY}"),
        postgresql_where=sa.text(f"stopped IS false AND {_NOT_READY}"),
    )
