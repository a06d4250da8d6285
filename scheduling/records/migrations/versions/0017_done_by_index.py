"""What is done is found by when it ended, so that old rows can be pruned and few are counted.

Revision ID: 0017_done_by_index
"""

import sqlalchemy as sa
from alembic import op

revision = "0017_done_by_index"
down_revision = "0016_in_doubt_by_index"


def upgrade() -> None:
    """Index them, because a status counted, and a budget read, every message there ever was."""
    ended = sa.text("ended_at IS NOT NULL")
    charged = sa.text("channel IN ('sms') AND state IN ('sent', 'unknown')")
    for name, columns, which in (
        ("ix_outbox_ended", ["ended_at", "state"], ended),
        ("ix_outbox_charged", ["ended_at"], charged),
    ):
        op.create_index(name, "outbox", columns, sqlite_where=which, postgresql_where=which)
    op.create_index("ix_delivery_report_reported_at", "delivery_report", ["reported_at"])
