"""Who belongs to the crew, and who wants to hear from us."""

from bot.channels.known_channels import traits_of
from bot.conversation.consent import decline
from bot.conversation.inviting import ask_partner
from bot.conversation.set_up import first_morning
from bot.conversation.turn import Turn
from bot.delivery.outbox import withdraw
from bot.reading.result import Command
from bot.wording import crew as words
from bot.wording.message import Message
from scheduling.records.people import Person
from scheduling.records.tables import Role
from scheduling.wall_time import local_day


def invite(turn: Turn, command: Command) -> Message:
    """A code with which one more person joins, or a question to their number; by the owner only."""
    if turn.person.role is not Role.OWNER:
        return _said(words.only_the_owner(owner_of(turn)))
    if command.number is not None:
        return ask_partner(turn, command)
    made = turn.records.make_invite(turn.person.id, turn.now)
    expires = local_day(made.expires_at, turn.person.zone)
    return _said(words.invited(made.code, expires, turn.invite_link(made.code)))


def already_in(turn: Turn, command: Command) -> Message:
    """A member begins or joins again: nothing changes, but a stopped one is started."""
    if turn.person.stopped:
        return start(turn, command)
    return _said(words.already_in_a_crew(others(turn)))


def crew(turn: Turn, _command: Command) -> Message:
    """List everybody."""
    people = turn.records.people()
    return _said(words.crew_list([_member(person) for person in people]))


def stop(turn: Turn, _command: Command) -> Message:
    """No more messages that were not asked for."""
    turn.person = turn.records.update_person(turn.person.id, stopped=True)
    by_text = traits_of(turn.message.channel).needs_consent
    if by_text:
        decline(turn.session, turn.message, turn.now)
    withdraw(turn.session, turn.person.id, turn.now, all_of_it=by_text)
    return Message((words.stopped(),), once=True)


def start(turn: Turn, _command: Command) -> Message:
    """Messages go on from the next morning."""
    turn.person = turn.records.update_person(turn.person.id, stopped=False)
    first_morning(turn.person, turn)
    return _said(words.started(turn.person.morning))


def others(turn: Turn) -> list[str]:
    """The names of the crew's other people."""
    return [each.name for each in turn.records.people() if each.id != turn.person.id]


def owner_of(turn: Turn) -> str:
    """The name of the crew's owner."""
    return next(each.name for each in turn.records.people() if each.role is Role.OWNER)


def _member(person: Person) -> words.Member:
    return words.Member(person.name, person.role, person.morning, person.stopped)


def _said(text: str) -> Message:
    return Message((text,))
