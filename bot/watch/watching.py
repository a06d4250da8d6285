"""The tick that writes down that the program lives, and looks whether anything gets through."""

from collections.abc import Collection
from datetime import datetime

from sqlalchemy import Engine

from bot.watch.heartbeats import write_beats
from bot.watch.pulse import running_name, take_unwritten
from bot.watch.silence import tell_of_silence
from scheduling.records.engine import writing


def watch_once(engine: Engine, now: datetime, running: Collection[str]) -> None:
    """Write down the signs of life since the last time; tell the owners of a long silence.

    Args:
        engine: the database.
        now: aware instant.
        running: names of the channels that run.

    """
    with writing(engine) as session:
        alive = {running_name(channel): now for channel in running}
        write_beats(session, take_unwritten() | alive)
        tell_of_silence(session, now, running)
