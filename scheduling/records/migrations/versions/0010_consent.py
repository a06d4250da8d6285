"""Who agreed to texts, when each may be sent to, and over which channel first.

Revision ID: 0010_consent
"""

from datetime import time

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0010_consent"
down_revision = "0009_carriers"


def upgrade() -> None:
    """Add numbers that were asked, strangers, quiet hours and second channels."""
    _numbers_asked()
    op.create_table(
        "stranger",
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("answered_at", Instant(), nullable=True),
        sa.Column("refused_at", Instant(), nullable=True),
        sa.PrimaryKeyConstraint("channel", "address", name="pk_stranger"),
    )
    for name in ("morning_asked_at", "quiet_asked_at"):
        op.add_column("person", sa.Column(name, Instant(), nullable=True))
    _asked_by_chat()
    op.add_column("person", sa.Column("first_channel", sa.Text(), nullable=True))
    op.add_column("person", sa.Column("fallback_minutes", sa.Integer(), nullable=True))
    for name in ("quiet_until", "fallback_at"):
        op.add_column("outbox", sa.Column(name, Instant(), nullable=True))
    op.add_column("outbox", sa.Column("delivery", sa.Text(), nullable=True))
    _index("ix_outbox_fallback_at", ["fallback_at"], "fallback_at IS NOT NULL")
    _index("ix_outbox_carrier_id", ["channel", "carrier_id"], "carrier_id IS NOT NULL")


def _asked_by_chat() -> None:
    """Whoever has another hour than the usual asked for it, though not when is known."""
    columns = (sa.column("morning", sa.Time()), sa.column("created_at", Instant()))
    person = sa.table("person", *columns, sa.column("morning_asked_at", Instant()))
    asked = person.update().where(person.c.morning != time(6, 30))
    op.execute(asked.values(morning_asked_at=person.c.created_at))


def _numbers_asked() -> None:
    op.create_table(
        "number_asked",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("crew_id", sa.Integer(), nullable=False),
        sa.Column("made_by", sa.Integer(), nullable=False),
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("made_at", Instant(), nullable=False),
        sa.Column("ended_at", Instant(), nullable=True),
        sa.Column("outcome", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_number_asked"),
        sa.ForeignKeyConstraint(
            ["crew_id", "made_by"], ["person.crew_id", "person.id"], name="fk_number_asked_made_by"
        ),
        sa.ForeignKeyConstraint(
            *(["crew_id", "person_id"], ["person.crew_id", "person.id"]),
            name="fk_number_asked_person_id",
        ),
    )
    op.create_index("ix_number_asked_channel", "number_asked", ["channel", "address"])


def _index(name: str, columns: list[str], where: str) -> None:
    op.create_index(
        name, "outbox", columns, sqlite_where=sa.text(where), postgresql_where=sa.text(where)
    )
