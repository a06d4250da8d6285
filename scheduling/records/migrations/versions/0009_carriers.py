"""How messages out fared by their carriers' reports, and parts of long messages in.

Revision ID: 0009_carriers
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0009_carriers"
down_revision = "0008_due_by_index"


def upgrade() -> None:
    """Make the tables of what carriers tell."""
    _reports()
    op.create_table(
        "message_part",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("sender", sa.Text(), nullable=False),
        sa.Column("reference", sa.Integer(), nullable=False),
        sa.Column("header_octets", sa.Integer(), nullable=False),
        sa.Column("total", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("octets", sa.LargeBinary(), nullable=False),
        sa.Column("received_at", Instant(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_message_part"),
        sa.UniqueConstraint(
            *("channel", "sender", "reference", "header_octets", "total", "number"),
            name="uq_message_part_of_whole",
        ),
    )


def _reports() -> None:
    op.create_table(
        "delivery_report",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("carrier_id", sa.Text(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("delivery", sa.Text(), nullable=False),
        sa.Column("trouble", sa.Text(), nullable=True),
        sa.Column("reported_at", Instant(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_delivery_report"),
        sa.UniqueConstraint("channel", "carrier_id", name="uq_delivery_report_channel_carrier_id"),
    )
    op.create_index("ix_delivery_report_key", "delivery_report", ["key"])
