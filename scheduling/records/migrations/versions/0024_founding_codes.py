"""Codes that found a crew, codes that are withdrawn, and tries that were wrong.

Revision ID: 0024_founding_codes
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0024_founding_codes"
down_revision = "0023_set_up_undone"


def upgrade() -> None:
    """Make room for the owner's codes and for the rate limit of guesses."""
    op.create_table(
        "founding_code",
        sa.Column("code", sa.String(8), nullable=False),
        sa.Column("made_at", Instant(), nullable=False),
        sa.Column("used_at", Instant(), nullable=True),
        sa.Column("withdrawn_at", Instant(), nullable=True),
        sa.PrimaryKeyConstraint("code", name="pk_founding_code"),
    )
    op.add_column("invite", sa.Column("withdrawn_at", Instant(), nullable=True))
    op.create_table(
        "wrong_code",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("tried_at", Instant(), nullable=False),
        sa.Column("looked_at", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_wrong_code"),
    )
    op.create_index("ix_wrong_code_sender", "wrong_code", ["channel", "address", "tried_at"])
    op.create_index("ix_wrong_code_tried_at", "wrong_code", ["tried_at"])
