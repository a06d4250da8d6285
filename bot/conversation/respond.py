"""From a message's text to its answer: which way a text goes."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from bot.channels.traits import traits_of
from bot.conversation import (
    answer_questions,
    change_settings,
    change_yards,
    crew_changes,
    crew_people,
    own_data,
    set_up,
)
from bot.conversation.change_settings import add_channel, channels, quiet
from bot.conversation.confirm import cancel, yes
from bot.conversation.crew_codes import codes, withdraw_code
from bot.conversation.permissions import act_of, not_allowed, owner_names
from bot.conversation.record_findings import report
from bot.conversation.remove_ways import remove_way
from bot.conversation.turn import Turn, situation_of
from bot.conversation.undo import undo
from bot.monitoring import Counted, count
from bot.reading.reader import read
from bot.reading.result import Command, CommandName, Reading
from bot.wording import help as help_texts
from bot.wording.cautions import cautions
from bot.wording.consent_texts import help_member
from bot.wording.crew import no_yard_yet
from bot.wording.message import Message
from scheduling.records.tables import Role


@dataclass(frozen=True)
class Answered:
    """The answer, and the turn of the crew that gives it; ``asks`` if none was chosen yet."""

    turn: Turn
    answer: Message
    asks: bool = False


def respond(turn: Turn) -> Message:
    """Read the turn's text, do what it says, and answer."""
    text = turn.message.text.strip()
    if not text:
        return Message((help_texts.text_only(),))
    if len(text) > help_texts.LONGEST_TEXT:
        return Message((help_texts.too_long(),))
    waited = turn.state.to_confirm
    reading = read(text, situation_of(turn))
    count(Counted.READINGS, outcome=_outcome(reading))
    answer = _act(turn, reading)
    if waited is not None and turn.state.to_confirm == waited:
        # Whatever else is said leaves the question.
        turn.state = replace(turn.state, to_confirm=None)
    return answer


def _outcome(reading: Reading) -> str:
    """What came of a text, in a word, for the counts."""
    if reading.findings:
        return "partly" if reading.questions else "noted"
    if reading.questions:
        return "asked"
    return "command" if reading.command or reading.yard else "not understood"


def _act(turn: Turn, reading: Reading) -> Message:
    if reading.yard is not None:
        turn.turn_to(reading.yard)
    if reading.findings and not turn.units:
        return Message((no_yard_yet(),))
    command = reading.command or _only_a_yard(reading)
    if command is None or reading.findings:
        return report(turn, reading)
    answer = not_allowed(turn, act_of(command))
    if answer is not None:
        return answer
    if command.name is CommandName.YARD and turn.state.unanswered:
        return _answered_with_yard(turn, command)
    if command.name not in SETTING_UP:
        return COMMANDS[command.name](turn, command)
    before = turn.records.set_up(turn.person.id)
    answer = COMMANDS[command.name](turn, command)
    made_by = (turn.person.id, turn.message.channel, turn.message.id)
    turn.records.note_change(*made_by, before, turn.now)
    return answer


def _only_a_yard(reading: Reading) -> Command | None:
    """A yard's name alone turns the talk there."""
    if reading.yard is None or reading.findings or reading.questions:
        return None
    return Command(CommandName.YARD, yard=reading.yard)


def _answered_with_yard(turn: Turn, command: Command) -> Message:
    """A yard's name alone answers the question which yard was meant."""
    asked = turn.state.unanswered
    turned = set_up.yard(turn, command)
    reading = read(asked, situation_of(turn))
    return report(turn, reading) if reading.findings else turned


def _yes(turn: Turn, _command: Command) -> Message:
    return yes(turn, lambda confirmed: _act(confirmed, _read(confirmed)))


def _read(turn: Turn) -> Reading:
    return read(turn.message.text.strip(), situation_of(turn))


def _help(turn: Turn, _command: Command) -> Message:
    return help_among([turn])


def help_among(turns: Sequence[Turn]) -> Message:
    """Give help to somebody with a turn in each of their crews; by text with whom to ask."""
    if not traits_of(turns[0].message.channel).needs_consent:
        return Message((help_texts.help_words(),))
    owners = [owner_names(turn) for turn in turns if turn.person.role is not Role.OWNER]
    return Message((help_member(" or ".join(owners)), help_texts.help_words()))


def _cautions(_turn: Turn, _command: Command) -> Message:
    return Message((cautions(),))


SETTING_UP = frozenset(
    {
        *(CommandName.YARD, CommandName.BOXES, CommandName.LOCATION, CommandName.ZONE),
        *(CommandName.RENAME_YARD, CommandName.REMOVE_YARD),
        *(CommandName.REMOVE_UNITS, CommandName.MOVE_UNITS),
        *(CommandName.MORNING, CommandName.FEEDER, CommandName.QUIET, CommandName.CHANNELS),
        *(CommandName.ODDS, CommandName.LOOK_AT, CommandName.GIVE_UP_AT, CommandName.DAYS),
    }
)
"""Commands that change the set-up; what they changed can be taken back."""

COMMANDS: Mapping[CommandName, Callable[[Turn, Command], Message]] = {
    CommandName.DUE: answer_questions.answer_due,
    CommandName.TOMORROW: answer_questions.answer_tomorrow,
    CommandName.WEEK: answer_questions.answer_week,
    CommandName.MORE: answer_questions.answer_more,
    CommandName.QUEENS: answer_questions.answer_queens,
    CommandName.FAILING: answer_questions.answer_failing,
    CommandName.HISTORY: answer_questions.answer_history,
    CommandName.PLAN: answer_questions.answer_plan,
    CommandName.UNDO: undo,
    CommandName.HELP: _help,
    CommandName.CAUTIONS: _cautions,
    CommandName.STOP: crew_people.stop,
    CommandName.START: crew_people.start,
    CommandName.YES: _yes,
    CommandName.CANCEL: cancel,
    CommandName.BEGIN: crew_people.already_in,
    CommandName.JOIN: crew_people.already_in,
    CommandName.INVITE: crew_people.invite,
    CommandName.CODES: codes,
    CommandName.WITHDRAW: withdraw_code,
    CommandName.NUMBER: crew_people.own_number,
    CommandName.CREW: crew_people.crew,
    CommandName.REMOVE: crew_changes.remove,
    CommandName.ROLE: crew_changes.set_role,
    CommandName.HAND_OVER: crew_changes.hand_crew_over,
    CommandName.LEAVE: crew_changes.leave,
    CommandName.REMOVE_WAY: remove_way,
    CommandName.MY_DATA: own_data.my_data,
    CommandName.FORGET_ME: own_data.forget_me,
    CommandName.YARD: set_up.yard,
    CommandName.YARDS: set_up.yards,
    CommandName.RENAME_YARD: change_yards.rename_yard,
    CommandName.REMOVE_YARD: change_yards.remove_yard,
    CommandName.BOXES: set_up.boxes,
    CommandName.REMOVE_UNITS: change_yards.remove_units,
    CommandName.MOVE_UNITS: change_yards.move_units,
    CommandName.MORNING: set_up.morning,
    CommandName.ZONE: set_up.zone,
    CommandName.LOCATION: set_up.location,
    CommandName.FEEDER: set_up.feeder,
    CommandName.ODDS: change_settings.odds,
    CommandName.LOOK_AT: change_settings.look_at,
    CommandName.GIVE_UP_AT: change_settings.give_up_at,
    CommandName.DAYS: change_settings.days,
    CommandName.QUIET: quiet,
    CommandName.CHANNELS: channels,
    CommandName.ADD_CHANNEL: add_channel,
}
"""What answers each command; a test holds that none is without."""
