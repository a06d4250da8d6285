"""Two channels that are both in trouble do not play ball with a reminder."""

from datetime import timedelta

import pytest
from sqlalchemy import Engine

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.jobs.fallback import fall_back
from tests.bot.conversation.lines import DAY, MILO, Lines, crew_of_ada

RUNNING = ("telegram", "sms")


@pytest.fixture
def both(engine: Engine) -> Lines:
    """Ada on the chat first and by text after half an hour, with cells due in three days."""
    lines = crew_of_ada(Lines(engine))
    lines.give("Ada", "sms", MILO)
    lines.say("Ada", "telegram first")
    lines.say("Ada", "other channel after 30 minutes")
    lines.say("Ada", "10 day cells in 1a-c")
    return lines


def test_a_text_that_nobody_reports_is_not_sent_again_and_again_while_the_chat_is_down(
    both: Lines,
) -> None:
    down = SendOutcome(SendResult.LATER, wait=timedelta(minutes=5), error=SendError.NO_CONNECTION)
    both.chat.failing = lambda _: down
    before = len(both.texts.to(MILO))
    both.at(DAY + timedelta(days=3), 14).morning()
    for _ in range(12):
        both.now += timedelta(minutes=31)
        fall_back(both.engine, both.now, RUNNING)
        both.deliver()

    assert len(both.texts.to(MILO)) - before == 1
