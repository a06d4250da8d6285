"""Who types at this machine's terminal is who they say, if the log knows the name."""

from datetime import datetime

from sqlalchemy import Engine

from bot.bell.wall_time import next_at
from bot.channels import console
from bot.command.whose import everybody
from scheduling.records.addresses import find_person
from scheduling.records.engine import writing
from scheduling.records.gateway import CrewRecords


def know_at_terminal(engine: Engine, name: str, now: datetime) -> bool:
    """Give a person known from elsewhere (an import, say) the terminal as an address.

    Somebody whose name nobody has, or two have, stays a newcomer, and False is returned.
    """
    with writing(engine) as session:
        if find_person(session, console.NAME, name) is not None:
            return True
        named = [p for p in everybody(session) if p.name.casefold() == name.casefold()]
        if len(named) != 1:
            return False
        person, records = named[0], CrewRecords(session, named[0].crew_id)
        records.add_address(person.id, console.NAME, name)
        if person.next_morning_at is None:
            following = next_at(now, person.morning, person.zone)
            records.update_person(person.id, next_morning_at=following)
    return True
