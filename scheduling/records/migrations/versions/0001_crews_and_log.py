"""Crews, people, yards, units, the log of entries, invites.

Revision ID: 0001_crews_and_log
"""

import sqlalchemy as sa
from alembic import op

from scheduling.records.append_only import triggers
from scheduling.records.instants import Instant

revision = "0001_crews_and_log"
down_revision = None


def upgrade() -> None:
    """Make the tables and the guard on the log."""
    _crew()
    _yard()
    _person()
    _address()
    _unit()
    _entry()
    _invite()
    for statement in triggers(op.get_context().dialect.name):
        op.execute(statement)


def _crew() -> None:
    op.create_table(
        "crew",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_crew"),
    )


def _yard() -> None:
    op.create_table(
        "yard",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("crew_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("name_folded", sa.Text(), nullable=False),
        sa.Column("zone", sa.Text(), nullable=False),
        sa.Column("latitude", sa.Float(), nullable=True),
        sa.Column("longitude", sa.Float(), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_yard"),
        sa.ForeignKeyConstraint(["crew_id"], ["crew.id"], name="fk_yard_crew_id"),
        sa.UniqueConstraint("crew_id", "name_folded", name="uq_yard_crew_id_name_folded"),
        sa.UniqueConstraint("crew_id", "id", name="uq_yard_crew_id_id"),
    )


def _person() -> None:
    op.create_table(
        "person",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("crew_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("name_folded", sa.Text(), nullable=False),
        sa.Column("role", sa.String(20), nullable=False),
        sa.Column("zone", sa.Text(), nullable=False),
        sa.Column("morning", sa.Time(), nullable=False),
        sa.Column("feeder_litres", sa.Float(), nullable=False),
        sa.Column("stopped", sa.Boolean(), nullable=False),
        sa.Column("cautioned_on", sa.Date(), nullable=True),
        sa.Column("daily_word", sa.Boolean(), nullable=False),
        sa.Column("quiet_from", sa.Time(), nullable=True),
        sa.Column("quiet_until", sa.Time(), nullable=True),
        sa.Column("next_morning_at", Instant(), nullable=True),
        sa.Column("yard_id", sa.Integer(), nullable=True),
        sa.Column("created_at", Instant(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_person"),
        sa.ForeignKeyConstraint(["crew_id"], ["crew.id"], name="fk_person_crew_id"),
        sa.ForeignKeyConstraint(
            ["crew_id", "yard_id"], ["yard.crew_id", "yard.id"], name="fk_person_crew_id_yard_id"
        ),
        sa.UniqueConstraint("crew_id", "name_folded", name="uq_person_crew_id_name_folded"),
        sa.UniqueConstraint("crew_id", "id", name="uq_person_crew_id_id"),
        sa.CheckConstraint("role IN ('owner', 'keeper', 'watcher')", name=op.f("ck_person_role")),
    )
    op.create_index("ix_person_next_morning_at", "person", ["next_morning_at"])


def _address() -> None:
    op.create_table(
        "address",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("channel", sa.String(40), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_address"),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name="fk_address_person_id"),
        sa.UniqueConstraint("channel", "address", name="uq_address_channel_address"),
    )
    op.create_index("ix_address_person_id", "address", ["person_id"])


def _unit() -> None:
    op.create_table(
        "unit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("box", sa.Integer(), nullable=False),
        sa.Column("letter", sa.String(1), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_unit"),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name="fk_unit_yard_id"),
        sa.UniqueConstraint("yard_id", "box", "letter", name="uq_unit_yard_id_box_letter"),
    )


def _entry() -> None:
    op.create_table(
        "entry",
        sa.Column("seq", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), autoincrement=True),
        sa.Column("uid", sa.String(64), nullable=False),
        sa.Column("crew_id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("box", sa.Integer(), nullable=True),
        sa.Column("letter", sa.String(1), nullable=True),
        sa.Column("batch", sa.Text(), nullable=True),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("value", sa.JSON(), nullable=True),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("recorded_at", Instant(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("channel", sa.String(40), nullable=False),
        sa.Column("message", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_entry"),
        sa.ForeignKeyConstraint(["crew_id"], ["crew.id"], name="fk_entry_crew_id"),
        sa.ForeignKeyConstraint(
            ["crew_id", "yard_id"], ["yard.crew_id", "yard.id"], name="fk_entry_crew_id_yard_id"
        ),
        sa.ForeignKeyConstraint(
            ["crew_id", "person_id"],
            ["person.crew_id", "person.id"],
            name="fk_entry_crew_id_person_id",
        ),
        sa.UniqueConstraint("crew_id", "uid", name="uq_entry_crew_id_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_entry_crew_id_yard_id_day", "entry", ["crew_id", "yard_id", "day"])
    op.create_index("ix_entry_crew_id_channel_message", "entry", ["crew_id", "channel", "message"])
    op.create_index("ix_entry_crew_id_person_id_seq", "entry", ["crew_id", "person_id", "seq"])


def _invite() -> None:
    op.create_table(
        "invite",
        sa.Column("code", sa.String(6), nullable=False),
        sa.Column("crew_id", sa.Integer(), nullable=False),
        sa.Column("made_by", sa.Integer(), nullable=False),
        sa.Column("made_at", Instant(), nullable=False),
        sa.Column("used_by", sa.Integer(), nullable=True),
        sa.Column("used_at", Instant(), nullable=True),
        sa.PrimaryKeyConstraint("code", name="pk_invite"),
        sa.ForeignKeyConstraint(["crew_id"], ["crew.id"], name="fk_invite_crew_id"),
        sa.ForeignKeyConstraint(
            ["crew_id", "made_by"],
            ["person.crew_id", "person.id"],
            name="fk_invite_crew_id_made_by",
        ),
        sa.ForeignKeyConstraint(
            ["crew_id", "used_by"],
            ["person.crew_id", "person.id"],
            name="fk_invite_crew_id_used_by",
        ),
    )
