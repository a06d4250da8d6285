"""The tables of the baseline that hold messages, conversations and signs of life."""

import sqlalchemy as sa
from alembic import op

from scheduling.records.instants import Instant
from scheduling.records.migrations.baseline.columns import may, must

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


def make_tables_of_messages() -> None:
    """Make the tables, and the guard on messages out."""
    for make in (_inbox, _parts, _outbox, _outbox_indexes, _talk, _carriers, _heartbeat):
        make()
    for guard in _GUARDS[op.get_context().dialect.name]:
        op.execute(guard)


def _inbox() -> None:
    op.create_table(
        "inbox",
        *must(sa.Integer(), "id"),
        *must(sa.Text(), "channel", "message_id", "address", "text", "sender"),
        *may(sa.Text(), "corrects"),
        *must(Instant(), "sent_at", "received_at"),
        *must(sa.Text(), "state"),
        *may(sa.Text(), "tap"),
        sa.PrimaryKeyConstraint("id", name="pk_inbox"),
        sa.UniqueConstraint("channel", "message_id", name="uq_inbox_channel_message_id"),
    )
    op.create_index("ix_inbox_state", "inbox", ["state"])
    op.create_index("ix_inbox_received_at", "inbox", ["received_at"])
    op.create_table(
        "message_known",
        *must(sa.Text(), "channel", "message_id"),
        sa.PrimaryKeyConstraint("channel", "message_id", name="pk_message_known"),
    )


def _parts() -> None:
    of_whole = ("channel", "sender", "reference", "header_octets", "total", "number")
    op.create_table(
        "message_part",
        *must(sa.Integer(), "id"),
        *must(sa.Text(), "channel", "sender"),
        *must(sa.Integer(), "reference", "header_octets", "total", "number"),
        *must(sa.LargeBinary(), "octets"),
        *must(Instant(), "received_at"),
        sa.PrimaryKeyConstraint("id", name="pk_message_part"),
        sa.UniqueConstraint(*of_whole, name="uq_message_part_of_whole"),
    )


def _outbox() -> None:
    op.create_table(
        "outbox",
        *must(sa.Integer(), "id"),
        *must(sa.Text(), "key", "purpose"),
        *may(sa.Integer(), "person_id"),
        *must(sa.Text(), "channel", "address", "text"),
        *must(sa.JSON(), "buttons"),
        *must(sa.Text(), "state"),
        *must(sa.Integer(), "attempts"),
        *must(Instant(), "planned_at", "next_try_at"),
        *may(Instant(), "useful_until", "lease_until", "ended_at"),
        *may(sa.Text(), "carrier_id"),
        *must(sa.Text(), "carrier_said"),
        sa.Column("doubts", sa.Integer(), nullable=False, server_default="0"),
        sa.Column("lane", sa.Integer(), nullable=False, server_default="1"),
        sa.Column("parts_sent", sa.Integer(), nullable=False, server_default="0"),
        *may(sa.Date(), "about"),
        *may(sa.Text(), "trouble"),
        *may(Instant(), "quiet_until", "fallback_at"),
        *may(sa.Text(), "delivery"),
        sa.PrimaryKeyConstraint("id", name="pk_outbox"),
        sa.UniqueConstraint("key", name="uq_outbox_key"),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name="fk_outbox_person_id"),
    )


def _outbox_indexes() -> None:
    planned, claimed = "state = 'planned'", "state = 'claimed'"
    _index("ix_outbox_planned", ["lane", "next_try_at", "id"], planned)
    of_address = ["channel", "address", "lane", "id"]
    _index("ix_outbox_open_of_address", of_address, "state IN ('planned', 'claimed')")
    _index("ix_outbox_leases", ["lease_until"], claimed)
    _index("ix_outbox_last_use", ["useful_until"], planned)
    _index("ix_outbox_about", ["person_id", "about"], "about IS NOT NULL")
    _index("ix_outbox_fallback_at", ["fallback_at"], "fallback_at IS NOT NULL")
    _index("ix_outbox_carrier_id", ["channel", "carrier_id"], "carrier_id IS NOT NULL")


def _index(name: str, columns: list[str], where: str) -> None:
    only = sa.text(where)
    op.create_index(name, "outbox", columns, sqlite_where=only, postgresql_where=only)


def _talk() -> None:
    op.create_table(
        "talk",
        *must(sa.Integer(), "person_id"),
        *must(sa.Text(), "unanswered"),
        *may(sa.JSON(none_as_null=True), "last_said"),
        *must(sa.JSON(), "more"),
        *may(sa.Date(), "yard_on"),
        sa.PrimaryKeyConstraint("person_id", name="pk_talk"),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name="fk_talk_person_id"),
    )


def _carriers() -> None:
    op.create_table(
        "pace",
        *must(sa.Text(), "channel", "address"),
        *must(Instant(), "free_at"),
        *may(Instant(), "asked_until", "noted_at"),
        sa.PrimaryKeyConstraint("channel", "address", name="pk_pace"),
    )
    op.create_index("ix_pace_free_at", "pace", ["free_at"])
    op.create_table(
        "delivery_report",
        *must(sa.Integer(), "id"),
        *must(sa.Text(), "channel", "carrier_id", "key", "delivery"),
        *may(sa.Text(), "trouble"),
        *must(Instant(), "reported_at"),
        sa.PrimaryKeyConstraint("id", name="pk_delivery_report"),
        sa.UniqueConstraint("channel", "carrier_id", name="uq_delivery_report_channel_carrier_id"),
    )
    op.create_index("ix_delivery_report_key", "delivery_report", ["key"])


def _heartbeat() -> None:
    op.create_table(
        "heartbeat",
        *must(sa.Text(), "name"),
        *must(Instant(), "at"),
        sa.PrimaryKeyConstraint("name", name="pk_heartbeat"),
    )
