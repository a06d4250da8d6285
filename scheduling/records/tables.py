"""The tables: what a crew is made of, and the log that is only ever added to."""

from datetime import date, datetime, time
from enum import StrEnum

from sqlalchemy import (
    JSON,
    BigInteger,
    CheckConstraint,
    Float,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
    false,
    text,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from scheduling.records.instants import Instant
from scheduling.value_forms import Plain

__all__ = [
    "AddressRow",
    "Base",
    "CrewRow",
    "EntryRow",
    "Instant",
    "InviteRow",
    "PersonRow",
    "Role",
    "UnitRow",
    "YardRow",
    "table_of",
]

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}
"""Every constraint has a name, so that a later migration can speak of it."""


def index_of_some(name: str, condition: str, *columns: str) -> Index:
    """Index only the rows that are looked for; the migrations make the same on PostgreSQL.

    To name PostgreSQL's condition here would load all that is known of that database, which takes
    a tenth of the memory of these tables, and of the time, where nobody uses it.
    """
    return Index(name, *columns, sqlite_where=text(condition))


class Base(DeclarativeBase):
    """The base of every table, those of other packages too."""

    metadata = MetaData(naming_convention=NAMES)
    type_annotation_map = {datetime: Instant, str: Text}  # noqa: RUF012 - read by SQLAlchemy


def table_of(kind: type[Base]) -> Table:
    """Give the table of a kind of row, for statements that need no objects made of its rows."""
    table = kind.__table__
    assert isinstance(table, Table)  # noqa: S101 - no class of ours stands for anything else
    return table


class Role(StrEnum):
    """What a person may do in the crew."""

    OWNER = "owner"
    KEEPER = "keeper"
    WATCHER = "watcher"
    """Sees everything, records nothing."""


class CrewRow(Base):
    """People who share yards and see each other's entries."""

    __tablename__ = "crew"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str]
    look_at: Mapped[float | None] = mapped_column(Float)
    """The chance of eggs at which this crew looks; empty for the usual one."""
    give_up_at: Mapped[float | None] = mapped_column(Float)
    """The chance of ever laying under which this crew gives a queen up; empty for the usual one."""
    weekdays: Mapped[str | None] = mapped_column(String(7))
    """The digits of the weekdays on which this crew goes out, 0 for Monday; empty for any day."""
    ends_at: Mapped[datetime | None]
    """Set only in the transaction that deletes the crew: the log's guard lets its entries go."""


class YardRow(Base):
    """A place with boxes; ``name_folded`` makes its name unique whatever the capitals."""

    __tablename__ = "yard"
    __table_args__ = (
        UniqueConstraint("crew_id", "name_folded"),
        # What refers to a yard names its crew too: the database itself keeps crews apart.
        UniqueConstraint("crew_id", "id"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    crew_id: Mapped[int] = mapped_column(ForeignKey("crew.id"))
    name: Mapped[str]
    name_folded: Mapped[str]
    zone: Mapped[str]
    latitude: Mapped[float | None] = mapped_column(Float)
    longitude: Mapped[float | None] = mapped_column(Float)
    removed_at: Mapped[datetime | None]
    """When somebody removed it; its entries stay, and nothing is due in it."""


class PersonRow(Base):
    """One member of one crew, and how the person wants to be told."""

    __tablename__ = "person"
    __table_args__ = (
        UniqueConstraint("crew_id", "name_folded"),
        UniqueConstraint("crew_id", "id"),
        ForeignKeyConstraint(["crew_id", "yard_id"], ["yard.crew_id", "yard.id"]),
        CheckConstraint("role IN ('owner', 'keeper', 'watcher')", name="role"),
        # Who stopped is never due, and must not be looked at on every tick.
        index_of_some("ix_person_next_morning_at", "stopped IS 0", "next_morning_at"),
        # Nor whose morning was made ready.
        index_of_some(
            "ix_person_not_ready",
            "stopped IS 0 AND (ready_for IS NULL OR ready_for != next_morning_at)",
            "next_morning_at",
        ),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    crew_id: Mapped[int] = mapped_column(ForeignKey("crew.id"))
    name: Mapped[str]
    name_folded: Mapped[str]
    role: Mapped[str] = mapped_column(String(20))
    zone: Mapped[str]
    morning: Mapped[time]
    feeder_litres: Mapped[float] = mapped_column(Float)
    stopped: Mapped[bool]
    cautioned_on: Mapped[date | None]
    daily_word: Mapped[bool]
    quiet_from: Mapped[time | None]
    quiet_until: Mapped[time | None]
    morning_asked_at: Mapped[datetime | None]
    """When the person last asked for the hour of their morning; empty while it is the usual one."""
    quiet_asked_at: Mapped[datetime | None]
    """When the person last settled their quiet hours."""
    first_channel: Mapped[str | None]
    """The channel that goes before others; empty for the one they came by."""
    fallback_minutes: Mapped[int | None]
    """After so long without delivery a reminder goes over the next channel; empty for never."""
    next_morning_at: Mapped[datetime | None]
    ready_for: Mapped[datetime | None]
    """The morning that was, or is being, made ready ahead: when it comes."""
    yard_id: Mapped[int | None]
    created_at: Mapped[datetime]
    left_at: Mapped[datetime | None]
    """When the person went out of the crew; what they noted stays under their name."""
    forgotten_at: Mapped[datetime | None]
    """When their name was taken out of the records; what they noted stays without it."""


class AddressRow(Base):
    """Where a person is reached on one channel; of each crew an address belongs to one person."""

    __tablename__ = "address"
    __table_args__ = (UniqueConstraint("channel", "address", "person_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"), index=True)
    channel: Mapped[str] = mapped_column(String(40))
    address: Mapped[str]
    unreachable_since: Mapped[datetime | None]
    """From when on the carrier has refused every message to it; empty while it takes them."""


class UnitRow(Base):
    """A compartment of a box; an undivided box is one unit with an empty letter."""

    __tablename__ = "unit"
    __table_args__ = (UniqueConstraint("yard_id", "box", "letter"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"))
    box: Mapped[int]
    letter: Mapped[str] = mapped_column(String(1))


class EntryRow(Base):
    """The log. ``seq`` is the order of writing and is never given twice."""

    __tablename__ = "entry"
    __table_args__ = (
        UniqueConstraint("crew_id", "uid"),
        ForeignKeyConstraint(["crew_id", "yard_id"], ["yard.crew_id", "yard.id"]),
        ForeignKeyConstraint(["crew_id", "person_id"], ["person.crew_id", "person.id"]),
        Index(None, "crew_id", "yard_id", "day"),
        Index(None, "crew_id", "channel", "message"),
        Index(None, "crew_id", "person_id", "seq"),
        {"sqlite_autoincrement": True},
    )

    seq: Mapped[int] = mapped_column(
        BigInteger().with_variant(Integer, "sqlite"), primary_key=True, autoincrement=True
    )
    uid: Mapped[str] = mapped_column(String(64))
    crew_id: Mapped[int] = mapped_column(ForeignKey("crew.id"))
    yard_id: Mapped[int]
    box: Mapped[int | None]
    letter: Mapped[str | None] = mapped_column(String(1))
    batch: Mapped[str | None]
    kind: Mapped[str] = mapped_column(String(40))
    value: Mapped[Plain] = mapped_column(JSON(none_as_null=True), nullable=True)
    day: Mapped[date]
    recorded_at: Mapped[datetime]
    person_id: Mapped[int]
    channel: Mapped[str] = mapped_column(String(40))
    message: Mapped[str | None]
    note: Mapped[str]


class InviteRow(Base):
    """A code that lets one more person into a crew, or its maker in by one more way; once."""

    __tablename__ = "invite"
    __table_args__ = (
        ForeignKeyConstraint(["crew_id", "made_by"], ["person.crew_id", "person.id"]),
        ForeignKeyConstraint(["crew_id", "used_by"], ["person.crew_id", "person.id"]),
    )

    code: Mapped[str] = mapped_column(String(6), primary_key=True)
    crew_id: Mapped[int] = mapped_column(ForeignKey("crew.id"))
    made_by: Mapped[int]
    made_at: Mapped[datetime]
    own: Mapped[bool] = mapped_column(server_default=false())
    """It is for one more channel of who asked for it."""
    used_by: Mapped[int | None]
    used_at: Mapped[datetime | None]
    withdrawn_at: Mapped[datetime | None]
    """When its maker, or the owner, let it let nobody in any more."""
