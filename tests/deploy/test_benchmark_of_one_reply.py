"""What is counted on the way of one reply is that way, from the message in to the sent answer."""

import sys

from deploy.benchmark.reply_modules import way_of_reply


def test_the_way_goes_from_the_message_in_to_the_sent_answer() -> None:
    way = way_of_reply()

    assert way.modules >= {
        "bot.reading.reader",
        "bot.wording.report_answers",
        "bot.channels.console",
        "scheduling.checks.calendar",
        "scheduling.records.log",
    }
    first, *others = (" ".join(statement.split()[:3]) for statement in way.statements)
    assert first == "INSERT INTO inbox"
    assert others.index("INSERT INTO entry") < others.index("INSERT INTO outbox")
    assert sys.getprofile() is None


def test_a_question_writes_no_entry_on_its_way() -> None:
    assert not any("INTO entry" in statement for statement in way_of_reply("due").statements)
