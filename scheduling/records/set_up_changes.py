"""What people change of a crew's set-up: told apart by comparing it, kept, and taken back."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import (
    JSON,
    BigInteger,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Select,
    String,
    func,
    select,
    update,
)
from sqlalchemy.orm import Mapped, mapped_column

from scheduling.entries import Entry
from scheduling.records.people import PeopleOfCrew
from scheduling.records.set_up_parts import Parts
from scheduling.records.set_up_settings import SetUp, differences, put_back, set_up_as_kept
from scheduling.records.tables import Base, EntryRow
from scheduling.records.yards import YardsOfCrew


class SetUpChangeRow(Base):
    """What one message changed of the set-up; an undo marks it and adds none of its own."""

    __tablename__ = "set_up_change"
    __table_args__ = (
        ForeignKeyConstraint(["crew_id", "person_id"], ["person.crew_id", "person.id"]),
        Index(None, "crew_id", "person_id", "id"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    crew_id: Mapped[int] = mapped_column(ForeignKey("crew.id"))
    person_id: Mapped[int]
    channel: Mapped[str] = mapped_column(String(40))
    message: Mapped[str]
    made_at: Mapped[datetime]
    undone_at: Mapped[datetime | None]
    after_entry: Mapped[int] = mapped_column(BigInteger)
    """The number of the crew's newest entry then; clocks may have been set back since."""
    parts: Mapped[dict[str, Any]] = mapped_column(JSON)
    """For each part of the set-up and each of its fields, what it was and what it became."""


@dataclass(frozen=True)
class SetUpChange:
    """What one message changed.

    Attributes:
        id: its number.
        channel: the channel of the message.
        message: the message's id.
        made_at: aware instant.
        after_entry: the number of the newest entry then.
        parts: by part of the set-up and field, what it was and what it became.
        undone: it was taken back.
    """

    id: int
    channel: str
    message: str
    made_at: datetime
    after_entry: int
    parts: Parts
    undone: bool


class ChangedSinceError(Exception):
    """What is to be put back is not as the change left it."""


class SetUpChangesOfCrew(PeopleOfCrew, YardsOfCrew):
    """The changes of one crew's set-up."""

    def set_up(self, person_id: int) -> SetUp:
        """Give the crew's set-up and one person's own settings.

        Raises:
            LookupError: this crew has no such person.
        """
        self.person(person_id)
        return set_up_as_kept(self._session, self._crew_id, person_id)

    def note_change(
        self, person_id: int, channel: str, message: str, before: SetUp, now: datetime
    ) -> None:
        """Keep what has changed of the set-up since ``before``, if anything has."""
        parts = differences(before, self.set_up(person_id))
        if not parts:
            return
        row = SetUpChangeRow(
            crew_id=self._crew_id,
            person_id=person_id,
            channel=channel,
            message=message,
            made_at=now,
            after_entry=self._newest_entry(),
            parts=parts,
        )
        self._session.add(row)
        self._session.flush()

    def last_change(self, person_id: int) -> SetUpChange | None:
        """Give the newest change of a person that was not taken back."""
        found = self._changes(person_id).where(SetUpChangeRow.undone_at.is_(None))
        row = self._session.scalars(found.limit(1)).first()
        return None if row is None else _change_of(row)

    def is_newer(self, change: SetUpChange, said: Sequence[Entry]) -> bool:
        """Tell whether a change was made after some entries were written."""
        uids = [entry.uid for entry in said]
        mine = (EntryRow.crew_id == self._crew_id) & EntryRow.uid.in_(uids)
        newest = self._session.scalar(select(func.max(EntryRow.seq)).where(mine))
        return newest is None or newest <= change.after_entry

    def change_by(self, person_id: int, channel: str, message: str) -> SetUpChange | None:
        """Give what one message of a person changed, taken back or not."""
        same = (SetUpChangeRow.channel == channel) & (SetUpChangeRow.message == message)
        row = self._session.scalars(self._changes(person_id).where(same).limit(1)).first()
        return None if row is None else _change_of(row)

    def undo_change(self, person_id: int, change: SetUpChange, now: datetime) -> None:
        """Put back what a change changed.

        Raises:
            ChangedSinceError: some of it was changed again since; nothing was put back.
        """
        as_it_is = self.set_up(person_id)
        for part, fields in change.parts.items():
            known = as_it_is.get(part, {})
            if any(known.get(name) != became for name, (_, became) in fields.items()):
                raise ChangedSinceError
        put_back(self._session, self._crew_id, person_id, change.parts, now)
        undone = update(SetUpChangeRow).where(SetUpChangeRow.id == change.id)
        self._session.execute(undone.values(undone_at=now))
        self._session.expire_all()

    def _newest_entry(self) -> int:
        of_crew = select(func.max(EntryRow.seq)).where(EntryRow.crew_id == self._crew_id)
        return self._session.scalar(of_crew) or 0

    def _changes(self, person_id: int) -> Select[SetUpChangeRow]:
        mine = (SetUpChangeRow.crew_id == self._crew_id) & (SetUpChangeRow.person_id == person_id)
        return select(SetUpChangeRow).where(mine).order_by(SetUpChangeRow.id.desc())


def _change_of(row: SetUpChangeRow) -> SetUpChange:
    parts = {
        part: {name: (was, became) for name, (was, became) in fields.items()}
        for part, fields in row.parts.items()
    }
    undone = row.undone_at is not None
    return SetUpChange(
        row.id, row.channel, row.message, row.made_at, row.after_entry, parts, undone
    )
