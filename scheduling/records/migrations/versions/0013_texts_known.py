"""Texts stay known by their carrier's id for ever, without their words.

Revision ID: 0013_texts_known
"""

import sqlalchemy as sa
from alembic import op

revision = "0013_texts_known"
down_revision = "0012_own_codes"


def upgrade() -> None:
    """Make the table of ids."""
    op.create_table(
        "message_known",
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("message_id", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("channel", "message_id", name="pk_message_known"),
    )
