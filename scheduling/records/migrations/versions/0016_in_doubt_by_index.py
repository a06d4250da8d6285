"""Messages of which nobody knows that they arrived are found by an index.

Revision ID: 0016_in_doubt_by_index
"""

import sqlalchemy as sa
from alembic import op

revision = "0016_in_doubt_by_index"
down_revision = "0015_ready_mornings"


def upgrade() -> None:
    """Index them, because each look for silent channels read every message there is."""
    in_doubt = sa.text("state IN ('unknown', 'expired')")
    op.create_index(
        "ix_outbox_in_doubt",
        "outbox",
        ["channel", "next_try_at"],
        sqlite_where=in_doubt,
        postgresql_where=in_doubt,
    )
