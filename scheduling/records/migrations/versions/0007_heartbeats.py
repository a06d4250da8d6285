"""When something last happened, whichever worker did it.

Revision ID: 0007_heartbeats
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0007_heartbeats"
down_revision = "0006_delivery"


def upgrade() -> None:
    """Make the table of signs of life."""
    op.create_table(
        "heartbeat",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("at", Instant(), nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_heartbeat"),
    )
