"""Signs of life in the database, where every worker and every command can see them."""

from collections.abc import Mapping
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.watch.tables import HeartbeatRow
from scheduling.records.insert_new import insert_into


def write_beats(session: Session, beats: Mapping[str, datetime]) -> None:
    """Write beats down over those that were written before."""
    if not beats:
        return
    # In the order of their names, so that two workers never wait for each other's rows.
    adding = insert_into(session, HeartbeatRow).values(
        [{"name": name, "at": beats[name]} for name in sorted(beats)]
    )
    session.execute(
        adding.on_conflict_do_update(
            index_elements=[HeartbeatRow.name], set_={"at": adding.excluded.at}
        )
    )


def beats_in(session: Session) -> dict[str, datetime]:
    """Give the last of each, by name."""
    return {row.name: row.at for row in session.scalars(select(HeartbeatRow))}
