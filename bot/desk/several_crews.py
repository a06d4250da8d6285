"""A message of somebody who is in several crews: to the crew it is for, or to all of them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bot.channels.known_channels import traits_of
from bot.desk.conversation_state import load_state, save_state
from bot.desk.crew_people import crew, owner_of
from bot.desk.gather_situation import situation_of
from bot.desk.respond import respond
from bot.desk.step import Step
from bot.desk.which_crew import Moment, Side, fit_of, which
from bot.post.crew_prefix import crew_names, told_on
from bot.post.rules import Purpose
from bot.reading.reader import read
from bot.reading.result import Command, CommandName, Reading
from bot.wording.consent_texts import help_member
from bot.wording.crews_named import answer_of, named_in, turned_to, whose
from bot.wording.help import help_words
from bot.wording.message import Message
from scheduling.records.tables import Role

OF_ALL = frozenset(
    {
        *(CommandName.STOP, CommandName.START, CommandName.QUIET, CommandName.CHANNELS),
        *(CommandName.MORNING, CommandName.ZONE, CommandName.FEEDER),
    }
)
"""What a person says of themselves, which holds in each of their crews."""


@dataclass(frozen=True)
class Answered:
    """The answer, and the step of the crew that gives it; ``asks`` if none was chosen yet."""

    step: Step
    answer: Message
    asks: bool = False


def respond_among(steps: Sequence[Step]) -> Answered:
    """Answer a message of somebody in several crews; there is a step for each."""
    names = crew_names(steps[0].session, [step.person for step in steps])
    told = named_in(steps[0].message.text, names)
    if told is not None:
        return _in_crew(steps, told[0], names, told[1])
    readings = [_read(step) for step in steps]
    command = None if readings[0].command is None else readings[0].command.name
    if command in OF_ALL:
        answers = [respond(step) for step in steps]
        return Answered(steps[0], answers[0])
    if command is CommandName.HELP:
        return Answered(steps[0], _help(steps))
    if command is CommandName.CREW:
        return Answered(steps[0], _crews(steps, names))
    if command is CommandName.NUMBER:
        return Answered(steps[0], respond(steps[0]))
    place = _place(steps, readings, command)
    if place is None:
        return _asked(steps, names)
    return _in_crew(steps, place, names, steps[0].message.text)


def _read(step: Step) -> Reading:
    text = step.message.text.strip()
    return read(text, situation_of(step)) if text else Reading()


def _place(
    steps: Sequence[Step], readings: Sequence[Reading], command: CommandName | None
) -> int | None:
    corrected = steps[0].message.corrects
    if corrected is not None:
        for place, step in enumerate(steps):
            if step.records.entries_from_message(step.message.channel, corrected):
                return place
    if command is CommandName.UNDO:
        return _newest_said(steps)
    spoke = [_moments(step) for step in steps]
    if command is CommandName.MORE:
        having = [place for place, step in enumerate(steps) if step.talk.more] or [0]
        return max(having, key=lambda place: _last(spoke[place]))
    return which([_side(*each) for each in zip(steps, readings, spoke, strict=True)])


def _last(moments: Sequence[Moment | None]) -> list[Moment]:
    return sorted(moment for moment in moments if moment is not None)[-1:]


def _newest_said(steps: Sequence[Step]) -> int:
    said = [step.records.last_said(step.person.id) for step in steps]
    having = [place for place, entries in enumerate(said) if entries] or [0]
    return max(having, key=lambda place: [entry.recorded_at for entry in said[place]])


def _moments(step: Step) -> tuple[Moment | None, Moment | None]:
    """When the person last talked with a crew today, and when its morning came today."""
    rows = told_on(step.session, step.person.id, step.today)
    spoke = [(row.planned_at, row.id) for row in rows if row.purpose != Purpose.MORNING]
    mornings = [row for row in rows if row.purpose == Purpose.MORNING]
    wrote = [(row.ended_at, row.id) for row in mornings if row.ended_at is not None]
    return max(spoke, default=None), max(wrote, default=None)


def _side(step: Step, reading: Reading, told: tuple[Moment | None, Moment | None]) -> Side:
    units = [unit for there in step.units.values() for unit in there]
    fit = fit_of(reading, units, owner=step.person.role is Role.OWNER)
    yard = reading.yard or (reading.command.yard if reading.command else None)
    return Side(fit, yard is not None, *told)


def _in_crew(steps: Sequence[Step], place: int, names: Sequence[str], text: str) -> Answered:
    """Work a message through in one crew; what another crew was asked about is forgotten."""
    for other, step in enumerate(steps):
        if other != place and step.talk.unanswered:
            save_state(step.session, step.person.id, replace(step.talk, unanswered=""))
    step, crew_name = steps[place], names[place]
    text = text or step.talk.unanswered
    if not text:
        answer = Message((turned_to(crew_name, list(step.units)),))
    else:
        step.message = replace(step.message, text=text)
        answer = respond(step)
    return Answered(step, answer_of(crew_name, answer))


def _asked(steps: Sequence[Step], names: Sequence[str]) -> Answered:
    """Ask for which crew it was; the name alone is then enough."""
    for step in steps:
        talk = replace(load_state(step.session, step.person.id), unanswered=step.message.text)
        save_state(step.session, step.person.id, talk)
    return Answered(steps[0], Message((whose(names),)), asks=True)


def _help(steps: Sequence[Step]) -> Message:
    if not traits_of(steps[0].message.channel).needs_consent:
        return Message((help_words(),))
    owners = [owner_of(step) for step in steps if step.person.role is not Role.OWNER]
    return Message((help_member(" or ".join(owners)), help_words()))


def _crews(steps: Sequence[Step], names: Sequence[str]) -> Message:
    command = Command(CommandName.CREW)
    lists = [answer_of(name, crew(step, command)) for name, step in zip(names, steps, strict=True)]
    return Message(("\n".join(each.text for each in lists),))
