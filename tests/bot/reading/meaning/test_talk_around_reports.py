"""Greetings, thanks and remarks record nothing and hide nothing."""

import pytest

from bot.reading.reader import read
from bot.reading.result import CommandName, QuestionKind
from bot.wording.questions import ask
from scheduling.entry_kinds import EntryKind
from tests.bot.reading.yards_for_reading import at, kinds


@pytest.mark.parametrize("text", ["thanks!", "ok", "good morning", "lol", "👍", "nice"])
def test_small_talk_records_nothing_and_is_not_called_wrong(text: str) -> None:
    reading = read(text, at())
    assert (reading.findings, reading.command) == ((), None)
    assert [question.kind for question in reading.questions] == [QuestionKind.NOTHING_SAID]
    assert ask(reading.questions[0]).startswith("Nothing to note.")


@pytest.mark.parametrize(
    "text",
    [
        "Good morning! 4b has eggs, lots of them",
        "I am pleased to say there are eggs in 4b",
        "opened box 4. 4b eggs",
        "had a look in 4b, she's laying nicely",
    ],
)
def test_a_report_is_read_through_its_small_talk(text: str) -> None:
    assert kinds(text) == {"4b": {EntryKind.EGGS}}
    assert read(text, at()).questions == ()


@pytest.mark.parametrize("doubt", ["I think", "maybe", "probably", "hopefully"])
def test_words_of_doubt_are_not_small_talk(doubt: str) -> None:
    assert read(f"{doubt} 4b eggs", at()).findings == ()


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("what do i have today", CommandName.DUE),
        ("anything due?", CommandName.DUE),
        ("what about tomorrow", CommandName.TOMORROW),
        ("any queens ready to take?", CommandName.QUEENS),
        ("who is in the crew", CommandName.CREW),
        ("please stop", CommandName.STOP),
        ("scratch that", CommandName.UNDO),
    ],
)
def test_a_question_in_loose_words_is_its_command(text: str, name: CommandName) -> None:
    command = read(text, at()).command
    assert command is not None
    assert command.name is name
