"""The command about one crew, for whoever runs the machine: show it, let out, forget, delete."""

from collections.abc import Callable
from datetime import UTC, datetime

import click
from sqlalchemy.orm import Session

import bot.all_tables  # noqa: F401 - all of them are looked through
from bot.command.call import Call, InputError
from bot.command.crews_listed import crew_counted, crew_line
from bot.command.options import pass_call
from bot.command.screen import show
from bot.command.terminal import at_terminal
from bot.command.whose import nobody_yet
from bot.conversation.departures import depart
from bot.conversation.personal_data import data_of, forget, ways_of
from bot.delivery.forget_messages import forget_messages
from scheduling.records.addresses import crews_together
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading, writing
from scheduling.records.forgetting import delete_crew
from scheduling.records.people import Person
from scheduling.records.tables import Role

Deed = Callable[[Session, CrewRecords, Person, datetime], str]
"""What is done about one person, and the line that says so."""


@click.command("crew")
@click.argument("number", metavar="N", type=int)
@click.argument("action", metavar="[ACTION]", required=False)
@click.argument("name", metavar="[NAME]", required=False)
@click.option("--yes", is_flag=True, help="Do not ask before something goes for good.")
@pass_call
def crew_command(
    call: Call, number: int, action: str | None, name: str | None, *, yes: bool
) -> None:
    """Show crew N as `yardbell crews` numbers it, or do something about it.

    ACTION is `data NAME` (all that is kept about a person, as JSON), `owner NAME`, `keeper NAME`
    or `watcher NAME`, `remove NAME` (lets the person out), `forget NAME` (takes their name,
    addresses and messages out of everything), or `delete` (the whole crew, with its log).
    """
    engine = call.engine_to_look()
    if engine is None:
        raise nobody_yet(call)
    if action is None or action == "data":
        with reading(engine) as session:
            records = _records(session, number)
            told = _shown(session, number) if action is None else _data(session, records, name)
        show(told)
        return
    if action not in _DEEDS and action != "delete":
        raise InputError(f"{action} is not known; one of: data, {', '.join(_DEEDS)}, delete")
    if action in ("forget", "delete"):
        _ask(f"{action} {name or f'crew {number}'}", yes=yes)
    with writing(engine) as session:
        records, now = _records(session, number), datetime.now(UTC)
        if action == "delete":
            show(_deleted(session, records, number, now))
        else:
            show(_DEEDS[action](session, records, _person(records, name), now))


def _records(session: Session, number: int) -> CrewRecords:
    records = CrewRecords(session, number)
    try:
        records.crew()
    except LookupError:
        raise InputError(f"there is no crew {number}; yardbell crews lists them") from None
    return records


def _person(records: CrewRecords, name: str | None) -> Person:
    found = None if not (name or "").strip() else records.person_named(name or "")
    if found is None or found.left_at is not None:
        people = ", ".join(person.name for person in records.people()) or "nobody"
        raise InputError(f"nobody in this crew is called {name or '?'}; there are: {people}")
    return found


def _ask(what: str, *, yes: bool) -> None:
    """Let nothing go for good that was not said twice."""
    if yes:
        return
    if not at_terminal():
        raise InputError(f"{what}: this cannot be undone; add --yes to do it")
    click.confirm(f"{what}: this cannot be undone. Do it?", abort=True)


def _shown(session: Session, number: int) -> str:
    crew = crew_counted(session, number)
    return "\n".join([crew_line(crew), *(_person_line(session, each) for each in crew.people)])


def _person_line(session: Session, person: Person) -> str:
    ways = [f"{way.channel} {way.address}" for way in ways_of(session, [person])]
    stopped = ", stopped" if person.stopped else ""
    reached = ", ".join(ways) or "no way"
    return f"       {person.name} ({person.role}{stopped}): {reached}; since {person.created_at:%F}"


def _data(session: Session, records: CrewRecords, name: str | None) -> str:
    return data_of(session, crews_together(session, _person(records, name).id))


def _as_role(role: Role) -> Deed:
    def deed(_session: Session, records: CrewRecords, person: Person, _now: datetime) -> str:
        records.update_person(person.id, role=role)
        return f"{person.name} is {role} now"

    return deed


def _remove(session: Session, _records: CrewRecords, person: Person, now: datetime) -> str:
    depart(session, person, now)
    return f"{person.name} is out of the crew; the entries keep the name"


def _forget(session: Session, _records: CrewRecords, person: Person, now: datetime) -> str:
    forget(session, crews_together(session, person.id), now)
    return f"{person.name} is forgotten; the entries stay without the name"


_DEEDS: dict[str, Deed] = {
    **{str(role): _as_role(role) for role in Role},
    "remove": _remove,
    "forget": _forget,
}


def _deleted(session: Session, records: CrewRecords, number: int, now: datetime) -> str:
    """Delete a crew, and what is kept of the addresses that lead into no other."""
    line = crew_line(crew_counted(session, number))
    for each in records.people(who_left=True):
        is_in_others = len(crews_together(session, each.id)) > 1
        ways = [] if is_in_others else ways_of(session, [each])
        depart(session, each, now)
        forget_messages(session, [each.id], ways)
    delete_crew(session, number, now)
    return f"deleted:{line}"
