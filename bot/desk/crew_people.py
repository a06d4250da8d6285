"""Who belongs to the crew, and who wants to hear from us."""

from bot.channels.known_channels import traits_of
from bot.desk.consent import decline
from bot.desk.inviting import ask_partner
from bot.desk.set_up import first_morning
from bot.desk.step import Step
from bot.post.expired_messages import withdraw
from bot.reading.result import Command
from bot.wording import crew as words
from bot.wording.message import Message
from scheduling.records.people import Person
from scheduling.records.tables import Role
from scheduling.wall_time import local_day


def invite(step: Step, command: Command) -> Message:
    """A code with which one more person joins, or a question to their number; by the owner only."""
    if step.person.role is not Role.OWNER:
        return _said(words.only_the_owner(owner_of(step)))
    if command.number is not None:
        return ask_partner(step, command)
    made = step.records.make_invite(step.person.id, step.now)
    expires = local_day(made.expires_at, step.person.zone)
    return _said(words.invited(made.code, expires, step.invite_link(made.code)))


def already_in(step: Step, command: Command) -> Message:
    """A member begins or joins again: nothing changes, but a stopped one is started."""
    if step.person.stopped:
        return start(step, command)
    return _said(words.already_in_a_crew(others(step)))


def crew(step: Step, _command: Command) -> Message:
    """List everybody."""
    people = step.records.people()
    return _said(words.crew_list([_member(person) for person in people]))


def stop(step: Step, _command: Command) -> Message:
    """No more messages that were not asked for."""
    step.person = step.records.update_person(step.person.id, stopped=True)
    by_text = traits_of(step.message.channel).needs_consent
    if by_text:
        decline(step.session, step.message, step.now)
    withdraw(step.session, step.person.id, step.now, all_of_it=by_text)
    return Message((words.stopped(),), once=True)


def start(step: Step, _command: Command) -> Message:
    """Messages go on from the next morning."""
    step.person = step.records.update_person(step.person.id, stopped=False)
    first_morning(step.person, step)
    return _said(words.started(step.person.morning))


def others(step: Step) -> list[str]:
    """The names of the crew's other people."""
    return [each.name for each in step.records.people() if each.id != step.person.id]


def owner_of(step: Step) -> str:
    """The name of the crew's owner."""
    return next(each.name for each in step.records.people() if each.role is Role.OWNER)


def _member(person: Person) -> words.Member:
    return words.Member(person.name, person.role, person.morning, person.stopped)


def _said(text: str) -> Message:
    return Message((text,))
