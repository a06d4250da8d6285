"""People who left a crew, or were let out of it.

Revision ID: 0020_out_of_the_crew
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0020_out_of_the_crew"
down_revision = "0017_done_by_index"


def upgrade() -> None:
    """Note when somebody went; what they noted keeps their name."""
    op.add_column("person", sa.Column("left_at", Instant(), nullable=True))
