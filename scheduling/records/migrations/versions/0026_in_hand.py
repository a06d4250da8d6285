"""Messages that a process has in hand, so that one which kills it is set aside.

Revision ID: 0026_in_hand
"""

import sqlalchemy as sa
from alembic import op

revision = "0026_in_hand"
down_revision = "0025_answers_by_text"


def upgrade() -> None:
    """Make room for the notes."""
    op.create_table(
        "in_hand",
        sa.Column("channel", sa.String(), nullable=False),
        sa.Column("message_id", sa.String(), nullable=False),
        sa.Column("run", sa.String(), nullable=False),
        sa.Column("deaths", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("channel", "message_id", name="pk_in_hand"),
    )
