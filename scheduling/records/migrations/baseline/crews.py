"""The tables of the baseline that hold crews, their log and their yards' weather."""

import sqlalchemy as sa
from alembic import op

from scheduling.records.append_only import triggers
from scheduling.records.instants import Instant
from scheduling.records.migrations.baseline.columns import may, must, of_crew

_READINGS = (
    "temperature_c",
    "wind_kmh",
    "rain_mm",
    "cloud_share",
    "sunshine_minutes",
    "humidity_percent",
)


def make_tables_of_crews() -> None:
    """Make the tables, parents first, and the guard on the log."""
    for make in (_crew, _yard, _person, _address, _unit, _entry, _invite, _asked, _weather):
        make()
    for statement in triggers(op.get_context().dialect.name):
        op.execute(statement)


def _crew() -> None:
    op.create_table(
        "crew",
        *must(sa.Integer(), "id"),
        *must(sa.Text(), "name"),
        *may(sa.Float(), "look_at", "give_up_at"),
        *may(sa.String(7), "weekdays"),
        sa.PrimaryKeyConstraint("id", name="pk_crew"),
    )


def _yard() -> None:
    op.create_table(
        "yard",
        *must(sa.Integer(), "id", "crew_id"),
        *must(sa.Text(), "name", "name_folded", "zone"),
        *may(sa.Float(), "latitude", "longitude"),
        sa.PrimaryKeyConstraint("id", name="pk_yard"),
        sa.ForeignKeyConstraint(["crew_id"], ["crew.id"], name="fk_yard_crew_id"),
        sa.UniqueConstraint("crew_id", "name_folded", name="uq_yard_crew_id_name_folded"),
        sa.UniqueConstraint("crew_id", "id", name="uq_yard_crew_id_id"),
    )


def _person() -> None:
    op.create_table(
        "person",
        *must(sa.Integer(), "id", "crew_id"),
        *must(sa.Text(), "name", "name_folded"),
        *must(sa.String(20), "role"),
        *must(sa.Text(), "zone"),
        *must(sa.Time(), "morning"),
        *must(sa.Float(), "feeder_litres"),
        *must(sa.Boolean(), "stopped"),
        *may(sa.Date(), "cautioned_on"),
        *must(sa.Boolean(), "daily_word"),
        *may(sa.Time(), "quiet_from", "quiet_until"),
        *may(Instant(), "next_morning_at"),
        *may(sa.Integer(), "yard_id"),
        *must(Instant(), "created_at"),
        *may(Instant(), "morning_asked_at", "quiet_asked_at"),
        *may(sa.Text(), "first_channel"),
        *may(sa.Integer(), "fallback_minutes"),
        sa.PrimaryKeyConstraint("id", name="pk_person"),
        sa.ForeignKeyConstraint(["crew_id"], ["crew.id"], name="fk_person_crew_id"),
        of_crew("yard", "yard_id", "fk_person_crew_id_yard_id"),
        sa.UniqueConstraint("crew_id", "name_folded", name="uq_person_crew_id_name_folded"),
        sa.UniqueConstraint("crew_id", "id", name="uq_person_crew_id_id"),
        sa.CheckConstraint("role IN ('owner', 'keeper', 'watcher')", name=op.f("ck_person_role")),
    )
    op.create_index(
        "ix_person_next_morning_at",
        "person",
        ["next_morning_at"],
        sqlite_where=sa.text("stopped IS 0"),
        postgresql_where=sa.text("stopped IS false"),
    )


def _address() -> None:
    op.create_table(
        "address",
        *must(sa.Integer(), "id", "person_id"),
        *must(sa.String(40), "channel"),
        *must(sa.Text(), "address"),
        *may(Instant(), "unreachable_since"),
        sa.PrimaryKeyConstraint("id", name="pk_address"),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name="fk_address_person_id"),
        sa.UniqueConstraint(
            *("channel", "address", "person_id"), name="uq_address_channel_address_person_id"
        ),
    )
    op.create_index("ix_address_person_id", "address", ["person_id"])


def _unit() -> None:
    op.create_table(
        "unit",
        *must(sa.Integer(), "id", "yard_id", "box"),
        *must(sa.String(1), "letter"),
        sa.PrimaryKeyConstraint("id", name="pk_unit"),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name="fk_unit_yard_id"),
        sa.UniqueConstraint("yard_id", "box", "letter", name="uq_unit_yard_id_box_letter"),
    )


def _entry() -> None:
    op.create_table(
        "entry",
        sa.Column("seq", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), autoincrement=True),
        *must(sa.String(64), "uid"),
        *must(sa.Integer(), "crew_id", "yard_id"),
        *may(sa.Integer(), "box"),
        *may(sa.String(1), "letter"),
        *may(sa.Text(), "batch"),
        *must(sa.String(40), "kind"),
        *may(sa.JSON(), "value"),
        *must(sa.Date(), "day"),
        *must(Instant(), "recorded_at"),
        *must(sa.Integer(), "person_id"),
        *must(sa.String(40), "channel"),
        *may(sa.Text(), "message"),
        *must(sa.Text(), "note"),
        sa.PrimaryKeyConstraint("seq", name="pk_entry"),
        sa.ForeignKeyConstraint(["crew_id"], ["crew.id"], name="fk_entry_crew_id"),
        of_crew("yard", "yard_id", "fk_entry_crew_id_yard_id"),
        of_crew("person", "person_id", "fk_entry_crew_id_person_id"),
        sa.UniqueConstraint("crew_id", "uid", name="uq_entry_crew_id_uid"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_entry_crew_id_yard_id_day", "entry", ["crew_id", "yard_id", "day"])
    op.create_index("ix_entry_crew_id_channel_message", "entry", ["crew_id", "channel", "message"])
    op.create_index("ix_entry_crew_id_person_id_seq", "entry", ["crew_id", "person_id", "seq"])


def _invite() -> None:
    op.create_table(
        "invite",
        *must(sa.String(6), "code"),
        *must(sa.Integer(), "crew_id", "made_by"),
        *must(Instant(), "made_at"),
        *may(sa.Integer(), "used_by"),
        *may(Instant(), "used_at"),
        sa.Column("own", sa.Boolean(), nullable=False, server_default=sa.false()),
        sa.PrimaryKeyConstraint("code", name="pk_invite"),
        sa.ForeignKeyConstraint(["crew_id"], ["crew.id"], name="fk_invite_crew_id"),
        of_crew("person", "made_by", "fk_invite_crew_id_made_by"),
        of_crew("person", "used_by", "fk_invite_crew_id_used_by"),
    )


def _asked() -> None:
    op.create_table(
        "number_asked",
        *must(sa.Integer(), "id", "crew_id", "made_by"),
        *must(sa.Text(), "channel", "address"),
        *may(sa.Text(), "name"),
        *may(sa.Integer(), "person_id"),
        *must(Instant(), "made_at"),
        *may(Instant(), "ended_at"),
        *may(sa.Text(), "outcome"),
        sa.PrimaryKeyConstraint("id", name="pk_number_asked"),
        of_crew("person", "made_by", "fk_number_asked_made_by"),
        of_crew("person", "person_id", "fk_number_asked_person_id"),
    )
    op.create_index("ix_number_asked_channel", "number_asked", ["channel", "address"])
    op.create_table(
        "stranger",
        *must(sa.Text(), "channel", "address"),
        *may(Instant(), "answered_at", "refused_at"),
        sa.PrimaryKeyConstraint("channel", "address", name="pk_stranger"),
    )


def _weather() -> None:
    op.create_table(
        "weather_hour",
        *must(sa.Integer(), "yard_id"),
        *must(Instant(), "at"),
        *may(sa.Float(), *_READINGS),
        *must(sa.Boolean(), "measured"),
        sa.PrimaryKeyConstraint("yard_id", "at", name="pk_weather_hour"),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name="fk_weather_hour_yard_id"),
    )
    op.create_table(
        "weather_asked",
        *must(sa.Integer(), "yard_id"),
        *must(sa.Float(), "latitude", "longitude"),
        *may(Instant(), "answered_at"),
        *must(sa.Integer(), "failures"),
        *must(Instant(), "next_at"),
        sa.PrimaryKeyConstraint("yard_id", name="pk_weather_asked"),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name="fk_weather_asked_yard_id"),
    )
    op.create_index("ix_weather_asked_next_at", "weather_asked", ["next_at"])
