"""A crew: the people who share yards, and the wall between it and every other crew."""

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from scheduling.records.names import tidy
from scheduling.records.tables import CrewRow


@dataclass(frozen=True)
class Crew:
    """A crew's number and name."""

    id: int
    name: str


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
        row = self._session.get(CrewRow, self._crew_id)
        if row is None:
            raise LookupError(f"there is no crew {self._crew_id}")
        return Crew(row.id, row.name)


def hold_crew(session: Session, crew_id: int) -> None:
    """Let nobody else write in a crew until this transaction ends; waits for its turn.

    What was read before may have changed while waiting, so whatever matters is to be read after.
    Hold one crew only: two transactions that each waited for the other's crew would wait in vain.
    """
    one = select(CrewRow.id).where(CrewRow.id == crew_id)
    session.execute(one.with_for_update(key_share=True))
    session.expire_all()


def add_crew(session: Session, name: str) -> Crew:
    """Make a crew with nobody in it."""
    row = CrewRow(name=tidy(name))
    session.add(row)
    session.flush()
    return Crew(row.id, row.name)
