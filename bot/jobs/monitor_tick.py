"""The monitor tick: it writes the heartbeats down, and tells owners what they should know."""

from collections.abc import Collection
from datetime import datetime

from sqlalchemy import Engine

from bot.delivery.silent_channels import tell_of_silence
from bot.delivery.sms_budget import SmsBudget, tell_of_sms_budget
from bot.monitoring.heartbeats import running_name, take_unwritten, write_beats
from scheduling.records.engine import writing


def monitor_once(
    engine: Engine, now: datetime, running: Collection[str], sms_budget: SmsBudget | None = None
) -> None:
    """Write down the heartbeats since the last time; tell the owners what they should know.

    Args:
        engine: the database.
        now: aware instant.
        running: names of the channels that run.
        sms_budget: how many segments of SMS a month has; None for no end of them.

    """
    with writing(engine) as session:
        alive = {running_name(channel): now for channel in running}
        write_beats(session, take_unwritten() | alive)
        tell_of_silence(session, now, running)
        if sms_budget is not None:
            tell_of_sms_budget(session, now, sms_budget, running)
