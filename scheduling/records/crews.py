"""A crew: the people who share yards, names as it compares them, and the wall between crews."""

import unicodedata
from collections.abc import Set
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from scheduling.plain_text import seen
from scheduling.records.tables import CrewRow, YardRow
from scheduling.walk.odds import USUAL, Odds, settled


def tidy(name: str) -> str:
    """Take surplus spaces out of a name, and all that nobody sees.

    Raises:
        ValueError: nothing is left.
    """
    return _named(seen(unicodedata.normalize("NFC", name)))


def folded(name: str) -> str:
    """Put a name as it is compared: "River " and "river" are one.

    Raises:
        ValueError: there is none.
    """
    # Not as ``tidy`` gives it: names that were stored before are found as they are.
    spaced = _named(" ".join(unicodedata.normalize("NFC", name).split()))
    return unicodedata.normalize("NFC", spaced.casefold())


def _named(name: str) -> str:
    if not name:
        raise ValueError("a name must have at least one letter")
    return name


ANY_DAY = frozenset(range(7))
"""Every weekday; Monday is 0."""

_HELD = "crew held"

CREW_COLUMNS = (CrewRow.id, CrewRow.name, CrewRow.look_at, CrewRow.give_up_at, CrewRow.weekdays)
"""What ``crew_of`` wants of a row."""


@dataclass(frozen=True)
class Crew:
    """A crew.

    Attributes:
        id: the crew's number.
        name: the crew's name.
        odds: the chances at which it looks for eggs and gives a queen up.
        weekdays: the weekdays on which it goes out to its yards, Monday being 0.
    """

    id: int
    name: str
    odds: Odds = USUAL
    weekdays: frozenset[int] = ANY_DAY


class CrewScope:
    """One session's view of one crew; the parts of ``CrewRecords`` stand on it.

    Every statement of theirs names ``crew_id``, so that nothing of another crew can be reached.
    """

    def __init__(self, session: Session, crew_id: int) -> None:
        self._session = session
        self._crew_id = crew_id

    def crew(self) -> Crew:
        """Give the crew.

        Raises:
            LookupError: there is no such crew.
        """
        return crew_of(self._crew_row())

    def settle_odds(self, *, best: float | None = None, give_up: float | None = None) -> Crew:
        """Keep the chances at which the crew looks for eggs and gives up; None for as usual.

        Raises:
            LookupError: there is no such crew.
            ValueError: a chance is one that nobody should look or give up at.
        """
        settled(best, give_up)
        row = self._crew_row()
        row.look_at, row.give_up_at = best, give_up
        self._session.flush()
        return crew_of(row)

    def settle_weekdays(self, weekdays: Set[int]) -> Crew:
        """Keep the weekdays on which the crew goes out, Monday being 0.

        Raises:
            LookupError: there is no such crew.
            ValueError: no day is left, or a number is no weekday.
        """
        if not weekdays or not weekdays <= ANY_DAY:
            raise ValueError(f"weekdays are numbers from 0 to 6, and not {sorted(weekdays)}")
        row = self._crew_row()
        row.weekdays = None if weekdays == ANY_DAY else "".join(map(str, sorted(weekdays)))
        self._session.flush()
        return crew_of(row)

    def _crew_row(self) -> CrewRow:
        row = self._session.get(CrewRow, self._crew_id)
        if row is None:
            raise LookupError(f"there is no crew {self._crew_id}")
        return row

    def _yard_row(self, name: str) -> YardRow:
        of_crew = select(YardRow).where(
            YardRow.crew_id == self._crew_id, YardRow.removed_at.is_(None)
        )
        row = self._session.scalar(of_crew.where(YardRow.name_folded == folded(name)))
        if row is None:
            raise LookupError(f"this crew has no yard {name!r}")
        return row


def crew_of(row: Any) -> Crew:
    """Make the frozen value of a crew's row."""
    weekdays = frozenset(map(int, row.weekdays)) if row.weekdays else ANY_DAY
    return Crew(row.id, row.name, settled(row.look_at, row.give_up_at), weekdays)


def hold_crew(session: Session, crew_id: int) -> None:
    """Let nobody else write in a crew until this transaction ends; waits for its turn.

    What was read before may have changed while waiting, so whatever matters is to be read after.
    On SQLite a transaction that may write holds every crew from its beginning.
    Hold one crew only: two transactions that each waited for the other's crew would wait in vain.
    """
    hold_crews(session, {crew_id})


def hold_crews(session: Session, crew_ids: Set[int]) -> None:
    """Hold several crews, as for somebody who is in each of them; all at once, once.

    They are held in the order of their numbers, so that nobody waits in vain.
    """
    held = _held(session)
    if crew_ids <= held or session.get_bind().dialect.name == "sqlite":
        return
    some = select(CrewRow.id).where(CrewRow.id.in_(crew_ids)).order_by(CrewRow.id)
    session.execute(some.with_for_update(key_share=True))
    session.expire_all()
    now = (session.get_transaction(), session.get_nested_transaction())
    session.info[_HELD] = (held | crew_ids, *now)


def _held(session: Session) -> frozenset[int]:
    """Give the crews that this transaction holds, come what may to its inner ones."""
    held, outer, inner = session.info.get(_HELD, (frozenset(), None, None))
    here = (session.get_transaction(), session.get_nested_transaction())
    holds = outer is here[0] and (inner is None or inner is here[1])
    return held if holds else frozenset()


def add_crew(session: Session, name: str) -> Crew:
    """Make a crew with nobody in it."""
    row = CrewRow(name=tidy(name))
    session.add(row)
    session.flush()
    return Crew(row.id, row.name)
