"""A message of somebody who is in several crews: to the crew it is for, or to all of them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import IntEnum

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.conversation.conversation_state import load_state, save_state
from bot.conversation.crew_people import crew
from bot.conversation.respond import Answered, help_among, respond
from bot.conversation.turn import Turn, situation_of
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import crew_names
from bot.delivery.rules import OutboxState, Purpose
from bot.reading.reader import read
from bot.reading.result import Command, CommandName, QuestionKind, Reading
from bot.wording.crews_named import answer_of, named_in, turned_to, whose
from bot.wording.message import Message
from scheduling.places import UnitName
from scheduling.records.tables import Role

Moment = tuple[datetime, int]
"""An instant, and the number of the message then, for those of one instant."""


class Fit(IntEnum):
    """How well a message fits a crew."""

    NOT = 0
    PARTLY = 1
    WHOLE = 2


@dataclass(frozen=True)
class Side:
    """A message as it looks from one crew.

    Attributes:
        fit: how much of it can be about this crew.
        names: it names a yard that this crew has.
        spoke: when the person last talked with this crew today.
        wrote: when this crew's morning came today.
    """

    fit: Fit
    names: bool = False
    spoke: Moment | None = None
    wrote: Moment | None = None


_OF_OWNERS = frozenset(
    {CommandName.INVITE, CommandName.REMOVE, CommandName.ROLE, CommandName.HAND_OVER}
)

_ABOUT_NO_CREW = frozenset({CommandName.PLAN, CommandName.CAUTIONS, CommandName.BEGIN})

_ABOUT_NOTHING = frozenset(
    {QuestionKind.NOT_UNDERSTOOD, QuestionKind.NOTHING_SAID, QuestionKind.NO_SUCH_UNIT}
)


def which(sides: Sequence[Side]) -> int | None:
    """Say for which crew a message is; None where it could be for several.

    A yard's name that only one crew has decides, then that its units are in one crew only. What
    fits several goes to the crew that was last talked with today, or whose morning alone came
    today. Once another crew's morning came after that, it could be either.
    """
    named = [place for place, side in enumerate(sides) if side.names]
    asked = named or list(range(len(sides)))
    best = max(sides[place].fit for place in asked)
    fitting = [place for place in asked if sides[place].fit is best]
    if len(fitting) == 1:
        return fitting[0]
    talk = _in_talk(sides)
    if best is Fit.NOT:
        return fitting[0] if talk not in fitting else talk
    return talk if talk in fitting else None


def _in_talk(sides: Sequence[Side]) -> int | None:
    spoken = [(side.spoke, place) for place, side in enumerate(sides) if side.spoke is not None]
    wrote = [(side.wrote, place) for place, side in enumerate(sides) if side.wrote is not None]
    if not spoken:
        return wrote[0][1] if len(wrote) == 1 else None
    last, talk = max(spoken)
    since = [place for at, place in wrote if at > last and place != talk]
    return None if since else talk


def fit_of(reading: Reading, units: Sequence[UnitName], *, owner: bool) -> Fit:
    """Say how well a text, read in a crew's situation, fits that crew.

    Args:
        reading: the text, read.
        units: all units of the crew.
        owner: who wrote owns the crew.
    """
    if reading.findings or reading.questions:
        return _fit_of_report(reading, units)
    command = reading.command
    if command is None or command.name in _ABOUT_NO_CREW:
        return Fit.NOT if reading.yard is None else Fit.WHOLE
    if command.name is CommandName.HISTORY:
        return Fit.WHOLE if _has(units, command.unit) else Fit.NOT
    if command.name in _OF_OWNERS:
        return Fit.WHOLE if owner else Fit.PARTLY
    return Fit.WHOLE if units else Fit.PARTLY


def _fit_of_report(reading: Reading, units: Sequence[UnitName]) -> Fit:
    asked = {question.kind for question in reading.questions}
    if not units or (not reading.findings and asked <= _ABOUT_NOTHING):
        return Fit.NOT
    return Fit.PARTLY if QuestionKind.NO_SUCH_UNIT in asked else Fit.WHOLE


def _has(units: Sequence[UnitName], unit: UnitName | None) -> bool:
    if unit is None or unit in units:
        return True
    return not unit.letter and any(each.box == unit.box for each in units)


_YES_OR_NO = frozenset({CommandName.YES, CommandName.CANCEL})

OF_ALL = frozenset(
    {
        *(CommandName.STOP, CommandName.START, CommandName.QUIET, CommandName.CHANNELS),
        *(CommandName.MORNING, CommandName.ZONE),
    }
)
"""What a person says of themselves, which holds in each of their crews."""


OF_PERSON = frozenset(
    {CommandName.NUMBER, CommandName.REMOVE_WAY, CommandName.MY_DATA, CommandName.FORGET_ME}
)
"""What is said to one crew and does by itself what it does in each of them."""


def respond_among(turns: Sequence[Turn]) -> Answered:
    """Answer a message of somebody in several crews; there is a turn for each."""
    names = crew_names(turns[0].session, [turn.person for turn in turns])
    told = named_in(turns[0].message.text, names)
    if told is not None:
        return _in_crew(turns, told[0], names, told[1])
    readings = [_read(turn) for turn in turns]
    answering = _answering(turns, readings)
    if answering is not None:
        return _in_crew(turns, answering, names, turns[0].message.text)
    command = None if readings[0].command is None else readings[0].command.name
    if command in OF_ALL:
        return Answered(turns[0], _in_one(names, [respond(turn) for turn in turns]))
    if command is CommandName.HELP:
        return Answered(turns[0], help_among(turns))
    if command is CommandName.CREW:
        return Answered(turns[0], _crews(turns, names))
    if command in OF_PERSON:
        return Answered(turns[0], respond(turns[0]))
    place = _place(turns, readings, command)
    if place is None:
        return _asked(turns, names)
    return _in_crew(turns, place, names, turns[0].message.text)


def _read(turn: Turn) -> Reading:
    text = turn.message.text.strip()
    return read(text, situation_of(turn)) if text else Reading()


def _answering(turns: Sequence[Turn], readings: Sequence[Reading]) -> int | None:
    """Give the crew whose question a yes or a no answers."""
    for place, reading in enumerate(readings):
        answers = reading.command is not None and reading.command.name in _YES_OR_NO
        if answers and turns[place].state.to_confirm is not None:
            return place
    return None


def _place(
    turns: Sequence[Turn], readings: Sequence[Reading], command: CommandName | None
) -> int | None:
    corrected = turns[0].message.corrects
    if corrected is not None:
        for place, turn in enumerate(turns):
            if turn.records.entries_from_message(turn.message.channel, corrected):
                return place
    quoted = turns[0].quoted
    if quoted is not None and quoted.person_id is not None:
        mine = [place for place, turn in enumerate(turns) if turn.person.id == quoted.person_id]
        if mine:
            return mine[0]
    if command is CommandName.UNDO:
        return _newest_said(turns)
    spoke = [_moments(turn) for turn in turns]
    if command is CommandName.MORE:
        having = [place for place, turn in enumerate(turns) if turn.state.more] or [0]
        return max(having, key=lambda place: sorted(filter(None, spoke[place]))[-1:])
    return which([_side(*each) for each in zip(turns, readings, spoke, strict=True)])


def _newest_said(turns: Sequence[Turn]) -> int:
    """Give the crew in which the person last noted or set up something."""
    return max(range(len(turns)), key=lambda place: _last_done(turns[place]))


def _last_done(turn: Turn) -> list[datetime]:
    said = [entry.recorded_at for entry in turn.records.last_said(turn.person.id)]
    change = turn.records.last_change(turn.person.id)
    return sorted([*said, *([change.made_at] if change is not None else [])])[-1:]


def _moments(turn: Turn) -> tuple[Moment | None, Moment | None]:
    """When the person last talked with a crew today, and when its morning came today."""
    rows = _told_on(turn.session, turn.person.id, turn.today)
    spoke = [(row.planned_at, row.id) for row in rows if row.purpose != Purpose.MORNING]
    mornings = [row for row in rows if row.purpose == Purpose.MORNING]
    wrote = [(row.ended_at, row.id) for row in mornings if row.ended_at is not None]
    return max(spoke, default=None), max(wrote, default=None)


def _side(turn: Turn, reading: Reading, told: tuple[Moment | None, Moment | None]) -> Side:
    units = [unit for there in turn.units.values() for unit in there]
    fit = fit_of(reading, units, owner=turn.person.role is Role.OWNER)
    yard = reading.yard or (reading.command.yard if reading.command else None)
    return Side(fit, yard is not None, *told)


def _in_crew(turns: Sequence[Turn], place: int, names: Sequence[str], text: str) -> Answered:
    """Work a message through in one crew; what another crew was asked about is forgotten."""
    for other, turn in enumerate(turns):
        if other != place and turn.state.unanswered:
            save_state(turn.session, turn.person.id, replace(turn.state, unanswered=""))
    turn, crew_name = turns[place], names[place]
    text = text or turn.state.unanswered
    if not text:
        answer = Message((turned_to(crew_name, list(turn.units)),))
    else:
        turn.message = replace(turn.message, text=text)
        answer = respond(turn)
    return Answered(turn, answer_of(crew_name, answer))


def _asked(turns: Sequence[Turn], names: Sequence[str]) -> Answered:
    """Ask for which crew it was; the name alone is then enough."""
    for turn in turns:
        state = replace(load_state(turn.session, turn.person.id), unanswered=turn.message.text)
        save_state(turn.session, turn.person.id, state)
    return Answered(turns[0], Message((whose(names),)), asks=True)


def _in_one(names: Sequence[str], answers: Sequence[Message]) -> Message:
    """Give what all crews answer alike once, and else under each crew's name what it answers."""
    first = answers[0]
    if all(answer == first for answer in answers):
        return first
    lists = [answer_of(name, answer).text for name, answer in zip(names, answers, strict=True)]
    return Message(("\n".join(lists),), once=first.once)


def _crews(turns: Sequence[Turn], names: Sequence[str]) -> Message:
    command = Command(CommandName.CREW)
    lists = [answer_of(name, crew(turn, command)) for name, turn in zip(names, turns, strict=True)]
    return Message(("\n".join(each.text for each in lists),))


def _told_on(session: Session, person_id: int, day: date) -> list[OutboxRow]:
    """Give the answers and mornings that a person got on their local date, in order."""
    mine = select(OutboxRow).where(OutboxRow.person_id == person_id, OutboxRow.about == day)
    return [row for row in session.scalars(mine.order_by(OutboxRow.id)) if _told(row)]


def _told(row: OutboxRow) -> bool:
    """Tell answers, which follow what the person said, and mornings that may have come."""
    if row.purpose == Purpose.MORNING:
        return row.state in (OutboxState.SENT, OutboxState.UNKNOWN)
    return row.purpose in (Purpose.ANSWER, Purpose.FAREWELL)
