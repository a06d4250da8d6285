"""The segments of answers that a number had within a day.

Revision ID: 0025_answers_by_text
"""

import sqlalchemy as sa
from alembic import op

revision = "0025_answers_by_text"
down_revision = "0024_founding_codes"


def upgrade() -> None:
    """Make room for the rate limit of answers by text."""
    op.create_table(
        "answers_by_text",
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("segments", sa.Integer(), nullable=False),
        sa.Column("told", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("channel", "address", name="pk_answers_by_text"),
    )
