"""Two people who reply about the same unit at the same moment, time and again."""

from datetime import UTC, date, datetime
from functools import partial

from sqlalchemy import Engine, func, select, text

from bot.channels.channel import IncomingMessage
from bot.conversation.message_handler import MessageHandler
from bot.delivery.intake import Intake
from bot.delivery.message_tables import OutboxRow
from deploy.standins.at_once import rounds
from deploy.standins.phones import Phones, river_of_three
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from scheduling.records.tables import EntryRow

NOW = datetime(2027, 5, 12, 12, tzinfo=UTC)


def message(who: str, said: str, key: str) -> IncomingMessage:
    """What somebody writes, under a key of its own."""
    return IncomingMessage("phone", who, key, said, NOW, who)


def pair(phones: Phones) -> None:
    """Ada and Milo share the yard River."""
    phones.on(date(2027, 5, 12))
    river_of_three(phones)
    code = phones.say("Ada", "invite").split("join ")[1].split()[0].strip(".")
    phones.say("Milo", f"join {code}")


def answers(engine: Engine) -> int:
    """How many answers were planned."""
    with reading(engine) as session:
        found = select(func.count()).select_from(OutboxRow).where(OutboxRow.purpose == "answer")
        return session.scalar(found) or 0


def said_together(engine: Engine, times: int) -> list[str]:
    """Let both reply ``times`` times at the same moment; gives what is wrong then."""
    pair(Phones(engine))
    before, intake = answers(engine), Intake(engine, MessageHandler())

    def says(who: str, said: str, number: int) -> None:
        intake.receive(message(who, said, f"{who}{number}"), NOW)

    rounds(
        [
            (partial(says, "Ada", "1a fed 1 quart", n), partial(says, "Milo", "1a note calm", n))
            for n in range(times)
        ]
    )
    return _wrong(engine, times, answers(engine) - before)


def _wrong(engine: Engine, times: int, answered: int) -> list[str]:
    with reading(engine) as session:
        person = find_person(session, "phone", "Ada")
        assert person is not None
        log = CrewRecords(session, person.crew_id).entries()
    wrong = []
    told = sorted((entry.person, str(entry.place.unit)) for entry in log)
    if told != [("Ada", "1a")] * times + [("Milo", "1a")] * times:
        wrong.append(f"{len(told)} entries of {2 * times}")
    if answered != 2 * times:
        wrong.append(f"{answered} answers to {2 * times} replies")
    if not in_order_of_commit(engine, 2 * times):
        wrong.append("the log is not in the order in which its transactions were kept")
    return wrong


def in_order_of_commit(engine: Engine, entries: int) -> bool:
    """Whether the log stands in the order in which its transactions were kept.

    PostgreSQL itself tells when each was kept. On SQLite writers take turns, so that the order
    of the answers is that of the entries.
    """
    with reading(engine) as session:
        if engine.dialect.name == "postgresql":
            kept = text("SELECT pg_xact_commit_timestamp(xmin) FROM entry ORDER BY seq")
            instants = list(session.scalars(kept))
            return len(instants) == entries and instants == sorted(instants)
        said = session.scalars(select(EntryRow.message).order_by(EntryRow.seq))
        keys = [f"answer:phone:{message}" for message in said]
        answered = select(OutboxRow.key).where(OutboxRow.key.in_(keys)).order_by(OutboxRow.id)
        return keys == list(session.scalars(answered))
