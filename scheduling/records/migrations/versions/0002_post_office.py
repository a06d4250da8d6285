"""Messages in and out, the talk with each person, and addresses that take no more messages.

Revision ID: 0002_post_office
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0002_post_office"
down_revision = "0001_crews_and_log"


def upgrade() -> None:
    """Make the tables of the post and of the talk."""
    _inbox()
    _outbox()
    _talk()
    op.add_column("address", sa.Column("unreachable_since", Instant(), nullable=True))


def _inbox() -> None:
    op.create_table(
        "inbox",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("message_id", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("sender", sa.Text(), nullable=False),
        sa.Column("corrects", sa.Text(), nullable=True),
        sa.Column("sent_at", Instant(), nullable=False),
        sa.Column("received_at", Instant(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_inbox"),
        sa.UniqueConstraint("channel", "message_id", name="uq_inbox_channel_message_id"),
    )
    op.create_index("ix_inbox_state", "inbox", ["state"])


def _outbox() -> None:
    op.create_table(
        "outbox",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("purpose", sa.Text(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("buttons", sa.JSON(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("planned_at", Instant(), nullable=False),
        sa.Column("next_try_at", Instant(), nullable=False),
        sa.Column("useful_until", Instant(), nullable=True),
        sa.Column("lease_until", Instant(), nullable=True),
        sa.Column("ended_at", Instant(), nullable=True),
        sa.Column("carrier_id", sa.Text(), nullable=True),
        sa.Column("carrier_said", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_outbox"),
        sa.UniqueConstraint("key", name="uq_outbox_key"),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name="fk_outbox_person_id"),
    )
    op.create_index("ix_outbox_state_next_try_at", "outbox", ["state", "next_try_at"])
    op.create_index("ix_outbox_address", "outbox", ["channel", "address", "state"])


def _talk() -> None:
    op.create_table(
        "talk",
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("unanswered", sa.Text(), nullable=False),
        sa.Column("last_said", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("more", sa.JSON(), nullable=False),
        sa.Column("yard_on", sa.Date(), nullable=True),
        sa.PrimaryKeyConstraint("person_id", name="pk_talk"),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name="fk_talk_person_id"),
    )
