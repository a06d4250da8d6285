"""Whether this process is well: it ticks, reaches its database, and what it sends gets through."""

from datetime import datetime, timedelta

from sqlalchemy import Engine, select

from bot.delivery.silent_channels import silent_since
from bot.monitoring import beats_in, last_beat, tick_name
from scheduling.records.engine import reading

TICKED_WITHIN = timedelta(minutes=1)
"""A process whose watch tick has not ended well for so long is not well.

Not the outbox's: in a rush of mornings that one goes on until the last has left.
"""


def health(engine: Engine, now: datetime) -> dict[str, object]:
    """Say whether this process is well, and what is not.

    A carrier that takes nothing is told of, and is no fault of ours that a start anew would mend.
    """
    ticked = last_beat(tick_name("watch"))
    ticks = ticked is not None and now - ticked <= TICKED_WITHIN
    try:
        with reading(engine) as session:
            session.execute(select(1))
            silent = list(silent_since(session, now, beats_in(session)))
        database = True
    except Exception:  # noqa: BLE001 - whatever keeps us from it
        silent, database = [], False
    return {"ok": ticks and database, "ticks": ticks, "database": database, "silent": silent}
