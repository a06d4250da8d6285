"""People who are forgotten, crews that are deleted, and files that are sent.

Revision ID: 0021_forgotten
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.append_only import triggers_with_exceptions
from scheduling.records.instants import Instant

revision = "0021_forgotten"
down_revision = "0020_out_of_the_crew"


def upgrade() -> None:
    """Let the log's guard tell a person who is forgotten and a crew that goes from all else."""
    op.add_column("person", sa.Column("forgotten_at", Instant(), nullable=True))
    op.add_column("crew", sa.Column("ends_at", Instant(), nullable=True))
    op.add_column("outbox", sa.Column("document", sa.JSON(), nullable=True))
    for statement in triggers_with_exceptions(op.get_context().dialect.name):
        op.execute(statement)
