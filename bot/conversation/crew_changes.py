"""Who is in a crew and in which role: removed, made owner or watcher, handed over, left."""

from bot.channels.channel import OutgoingMessage
from bot.conversation.departures import depart, invite_no_more
from bot.conversation.turn import Turn
from bot.delivery.notices_to_owners import tell_owner
from bot.delivery.outbox import next_address, of_their_crew, plan
from bot.delivery.rules import Purpose
from bot.reading.result import Command
from bot.wording import people_texts as words
from bot.wording.message import Message
from bot.wording.plain_letters import to_gsm7
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import tidy
from scheduling.records.people import Person
from scheduling.records.tables import PersonRow, Role


def remove(turn: Turn, command: Command) -> Message:
    """Let somebody out of the crew, once that was asked about."""
    person, problem = _somebody(turn, command)
    if person is None:
        return problem
    if person.id == turn.person.id:
        return Message.of(words.that_is_you())
    if not is_sure(turn, command):
        return turn.ask_first(words.remove_asked(person.name))
    depart(turn.session, person, turn.now)
    return Message.of(words.removed(person.name))


def set_role(turn: Turn, command: Command) -> Message:
    """Make somebody an owner, a keeper or a watcher."""
    person, problem = _somebody(turn, command)
    if person is None:
        return problem
    role = Role(command.role or person.role)
    if role is Role.OWNER and not turn.records.addresses(person.id):
        return Message.of(words.has_no_way(person.name))
    if role is not Role.OWNER and is_only_owner(turn.records, person):
        return Message.of(words.only_owner_left())
    _change_role(turn, person, role)
    return Message.of(words.role_set(person.name, role))


def hand_crew_over(turn: Turn, command: Command) -> Message:
    """Make somebody the owner in the person's own place, once that was asked about."""
    person, problem = _somebody(turn, command)
    if person is None:
        return problem
    if person.id == turn.person.id:
        return Message.of(words.role_set(person.name, person.role))
    if not turn.records.addresses(person.id):
        return Message.of(words.has_no_way(person.name))
    if not is_sure(turn, command):
        return turn.ask_first(words.hand_over_asked(person.name))
    _change_role(turn, person, Role.OWNER)
    _change_role(turn, turn.person, Role.KEEPER)
    return Message.of(words.handed_over(person.name))


def leave(turn: Turn, command: Command) -> Message:
    """Go out of the crew, once that was asked about; a crew keeps an owner who is reached."""
    if is_only_owner(turn.records, turn.person):
        return Message.of(words.only_owner_left())
    crew = turn.crew.crew.name
    if not is_sure(turn, command):
        return turn.ask_first(words.leave_asked(crew))
    row = turn.session.get_one(PersonRow, turn.person.id)
    depart(turn.session, turn.person, turn.now)
    tell_owner(turn.session, row, "left", words.somebody_left(row.name), turn.now)
    turn.is_out = True
    return Message.of(words.you_left(crew))


def is_sure(turn: Turn, command: Command) -> bool:
    """Tell whether what is asked about once was said with its yes, or a yes came to the question.

    Whoever stopped all messages types it with the command: their bare yes would start them.
    """
    return command.sure or turn.confirmed


def is_only_owner(records: CrewRecords, person: Person) -> bool:
    """Tell whether a crew would have no other owner who can be reached."""
    owners = [each for each in others_reached(records, person) if each.role is Role.OWNER]
    return person.role is Role.OWNER and not owners


def others_reached(records: CrewRecords, person: Person) -> list[Person]:
    """Give the other people of a crew who have any way to it."""
    return [p for p in records.people() if p.id != person.id and records.addresses(p.id)]


def _change_role(turn: Turn, person: Person, role: Role) -> None:
    turn.records.update_person(person.id, role=role)
    if role is not Role.OWNER:
        invite_no_more(turn.session, person, turn.now)
    if person.id == turn.person.id:
        turn.person = turn.records.person(person.id)
    elif role is not person.role:
        _tell(turn, person, words.role_given(role, turn.person.name))


def _somebody(turn: Turn, command: Command) -> tuple[Person | None, Message]:
    """The person of the crew that a command names, or what to answer when there is none."""
    people, word = turn.records.people(), command.word or ""
    named = [each for each in people if _as_texted(each.name) == _as_texted(word)]
    if len(named) == 1:
        return named[0], Message.of("")
    return None, Message.of(words.no_such_person(word, [each.name for each in people]))


def _as_texted(name: str) -> str:
    """A name as a text shows it: who reads "Zoe" there types it so."""
    return to_gsm7(tidy(name)).casefold()


def _tell(turn: Turn, person: Person, text: str) -> None:
    to = next_address(turn.records, person.id, (turn.message.channel,))
    if to is None or person.stopped:
        return
    key = f"role:{person.id}:{turn.now.isoformat()}"
    outgoing = OutgoingMessage(to.address, of_their_crew(turn.session, person.id, text))
    plan(turn.session, key, Purpose.NEWS, to, outgoing, turn.now)
