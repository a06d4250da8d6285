"""Lanes, parts, paces and taps; and a guard that no message out ever goes backwards.

Revision ID: 0006_delivery
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant

revision = "0006_delivery"
down_revision = "0005_crew_settings"

_STAYS = """(
    OLD.state = NEW.state
    OR OLD.state = 'planned' AND NEW.state IN ('claimed', 'expired')
    OR OLD.state = 'claimed' AND NEW.state IN ('planned', 'sent', 'failed', 'unknown')
)"""

_GUARDS = {
    "sqlite": (
        "CREATE TRIGGER outbox_never_backwards BEFORE UPDATE ON outbox "
        f"WHEN NOT {_STAYS} "
        "BEGIN SELECT RAISE(ABORT, 'a message out never goes backwards'); END",
    ),
    "postgresql": (
        "CREATE OR REPLACE FUNCTION refuse_outbox_backwards() RETURNS trigger LANGUAGE plpgsql "
        "AS $$ BEGIN RAISE EXCEPTION 'a message out never goes backwards'; END $$",
        "CREATE TRIGGER outbox_never_backwards BEFORE UPDATE ON outbox FOR EACH ROW "
        f"WHEN (NOT {_STAYS}) EXECUTE FUNCTION refuse_outbox_backwards()",
    ),
}


def upgrade() -> None:
    """Add what the post needs to keep order, pace and promises."""
    _outbox()
    _indexes()
    op.add_column("inbox", sa.Column("tap", sa.Text(), nullable=True))
    op.create_index("ix_inbox_received_at", "inbox", ["received_at"])
    op.create_table(
        "pace",
        sa.Column("channel", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("free_at", Instant(), nullable=False),
        sa.Column("asked_until", Instant(), nullable=True),
        sa.PrimaryKeyConstraint("channel", "address", name="pk_pace"),
    )
    op.create_index("ix_pace_free_at", "pace", ["free_at"])
    for guard in _GUARDS[op.get_bind().dialect.name]:
        op.execute(guard)


def _outbox() -> None:
    for name, default in (("lane", "1"), ("parts_sent", "0")):
        column = sa.Column(name, sa.Integer(), nullable=False, server_default=default)
        op.add_column("outbox", column)
    op.add_column("outbox", sa.Column("about", sa.Date(), nullable=True))
    op.add_column("outbox", sa.Column("trouble", sa.Text(), nullable=True))
    op.execute("UPDATE outbox SET lane = 0 WHERE purpose = 'answer'")


def _indexes() -> None:
    op.drop_index("ix_outbox_address", "outbox")
    op.drop_index("ix_outbox_state_next_try_at", "outbox")
    planned, claimed = "state = 'planned'", "state = 'claimed'"
    _index("ix_outbox_planned", "outbox", ["lane", "next_try_at", "id"], planned)
    open_rows = "state IN ('planned', 'claimed')"
    of_address = ["channel", "address", "lane", "id"]
    _index("ix_outbox_open_of_address", "outbox", of_address, open_rows)
    _index("ix_outbox_leases", "outbox", ["lease_until"], claimed)
    _index("ix_outbox_last_use", "outbox", ["useful_until"], planned)
    _index("ix_outbox_about", "outbox", ["person_id", "about"], "about IS NOT NULL")
    op.drop_index("ix_person_next_morning_at", "person")
    op.create_index(
        "ix_person_next_morning_at",
        "person",
        ["next_morning_at"],
        sqlite_where=sa.text("stopped IS 0"),
        postgresql_where=sa.text("stopped IS false"),
    )


def _index(name: str, table: str, columns: list[str], where: str) -> None:
    op.create_index(
        name, table, columns, sqlite_where=sa.text(where), postgresql_where=sa.text(where)
    )
