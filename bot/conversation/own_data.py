"""Answers to a person who asks for what is kept about them, or wants to be forgotten."""

from bot.channels.channel import Document
from bot.channels.traits import traits_of
from bot.conversation.crew_changes import is_only_owner, is_sure, others_reached
from bot.conversation.personal_data import data_of, forget
from bot.conversation.turn import Turn
from bot.reading.result import Command
from bot.wording import own_data_texts as words
from bot.wording.message import Message
from scheduling.records.addresses import crews_together
from scheduling.records.crew_records import CrewRecords

_FILE = "yardbell-my-data.json"


def my_data(turn: Turn, _command: Command) -> Message:
    """Send all that is kept about the person: as a file, or in parts where files cannot go."""
    told = data_of(turn.session, crews_together(turn.session, turn.person.id))
    traits = traits_of(turn.message.channel)
    if traits.takes_files:
        return Message((words.data_in_file(),), document=Document(_FILE, told))
    return Message(words.data_in_parts(told, traits.most_segments))


def forget_me(turn: Turn, command: Command) -> Message:
    """Forget the person in all of their crews, once that was asked about."""
    people = crews_together(turn.session, turn.person.id)
    for each in people:
        records = CrewRecords(turn.session, each.crew_id)
        if is_only_owner(records, each) and others_reached(records, each):
            return Message.of(words.hand_over_first(records.crew().name))
    if not is_sure(turn, command):
        return turn.ask_first(words.forget_asked())
    forget(turn.session, people, turn.now)
    turn.is_out = turn.is_forgotten = True
    return Message((words.forgotten(),))
