"""How often it was not known whether a message out had arrived.

Revision ID: 0003_doubts
"""

import sqlalchemy as sa
from alembic import op

revision = "0003_doubts"
down_revision = "0002_post_office"


def upgrade() -> None:
    """Count doubts apart from tries, since only doubts use up a message's repeats."""
    op.add_column("outbox", sa.Column("doubts", sa.Integer(), nullable=False, server_default="0"))
