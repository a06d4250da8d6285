"""What people change of a crew's set-up is kept, and yards can be removed.

Revision ID: 0023_set_up_undone
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0023_set_up_undone"
down_revision = "0022_what_is_quoted"

_NAMES = ["crew_id", "person_id"]


def upgrade() -> None:
    """Make room for changes of the set-up, and for when a yard was removed."""
    op.add_column("yard", sa.Column("removed_at", Instant(), nullable=True))
    op.create_table(
        "set_up_change",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("crew_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("channel", sa.String(40), nullable=False),
        sa.Column("message", sa.Text(), nullable=False),
        sa.Column("made_at", Instant(), nullable=False),
        sa.Column("undone_at", Instant(), nullable=True),
        sa.Column("after_entry", sa.BigInteger(), nullable=False),
        sa.Column("parts", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_set_up_change"),
        sa.ForeignKeyConstraint(["crew_id"], ["crew.id"], name="fk_set_up_change_crew_id"),
        sa.ForeignKeyConstraint(
            _NAMES, ["person.crew_id", "person.id"], name="fk_set_up_change_crew_id_person_id"
        ),
    )
    op.create_index("ix_set_up_change_crew_id_person_id_id", "set_up_change", [*_NAMES, "id"])
