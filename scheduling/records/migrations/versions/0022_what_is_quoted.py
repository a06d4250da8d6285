"""What a message quotes and speaks of, messages that are changed, and what waits for a yes.

Revision ID: 0022_what_is_quoted
"""

import sqlalchemy as sa
from alembic import op

revision = "0022_what_is_quoted"
down_revision = "0021_forgotten"

_OF_ANSWER = """
    UPDATE outbox SET of_message = substr(key, length('answer:' || channel || ':') + 1)
    WHERE purpose = 'answer'
"""


def upgrade() -> None:
    """Add the columns; an answer's key says which message it tells of."""
    op.add_column("inbox", sa.Column("replies_to", sa.Text(), nullable=True))
    op.add_column("inbox", sa.Column("album", sa.Text(), nullable=True))
    in_group = sa.Column("in_group", sa.Boolean(), nullable=False, server_default=sa.false())
    op.add_column("inbox", in_group)
    _index("ix_inbox_album", "inbox", "album")
    op.add_column("outbox", sa.Column("of_message", sa.Text(), nullable=True))
    op.add_column("outbox", sa.Column("places", sa.JSON(), nullable=True))
    op.add_column("outbox", sa.Column("edits", sa.Text(), nullable=True))
    _index("ix_outbox_edits", "outbox", "edits")
    op.add_column("ready_morning", sa.Column("places", sa.JSON(), nullable=True))
    op.add_column("talk", sa.Column("spoken_yard", sa.Text(), nullable=True))
    op.add_column("talk", sa.Column("to_confirm", sa.JSON(), nullable=True))
    op.execute(_OF_ANSWER)


def _index(name: str, table: str, column: str) -> None:
    there = sa.text(f"{column} IS NOT NULL")
    columns = ["channel", column]
    op.create_index(name, table, columns, sqlite_where=there, postgresql_where=there)
