"""A crew: the people who share yards, and the wall between it and every other crew."""

from dataclasses import dataclass

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


def add_crew(session: Session, name: str) -> Crew:
    """Make a crew with nobody in it."""
    row = CrewRow(name=tidy(name))
    session.add(row)
    session.flush()
    return Crew(row.id, row.name)
