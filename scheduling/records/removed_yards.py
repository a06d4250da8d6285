"""A yard that was removed stays in the records under another name, since entries speak of it."""

from datetime import datetime

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from scheduling.records.calendar_cache import check_log_again
from scheduling.records.crews import folded
from scheduling.records.tables import PersonRow, YardRow


def hide_yard(session: Session, yard: YardRow, now: datetime) -> None:
    """Take a yard and its units out of sight; its name is free for another."""
    yard.name = _free_name(session, yard)
    yard.name_folded, yard.removed_at = folded(yard.name), now
    in_it = (PersonRow.crew_id == yard.crew_id) & (PersonRow.yard_id == yard.id)
    session.execute(update(PersonRow).where(in_it).values(yard_id=None))
    check_log_again(session, yard.crew_id)
    session.flush()


def _free_name(session: Session, yard: YardRow) -> str:
    names = select(YardRow.name_folded).where(YardRow.crew_id == yard.crew_id)
    taken = set(session.scalars(names))
    name, number = f"{yard.name} (removed)", 2
    while folded(name) in taken:
        name, number = f"{yard.name} (removed {number})", number + 1
    return name
