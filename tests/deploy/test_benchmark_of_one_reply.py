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


def test_nothing_is_read_twice_between_the_message_in_and_the_claimed_answer() -> None:
    statements = way_of_reply().statements
    claimed = next(n for n, each in enumerate(statements) if each.startswith("UPDATE outbox"))
    until_claimed = statements[: claimed + 1]

    assert len(until_claimed) <= 14
    # The log alone is looked at twice: as it was, and with what was recorded.
    twice = {each for each in until_claimed if until_claimed.count(each) > 1}
    assert [each.count("UNION ALL") for each in twice] == [3]
    assert len(statements) <= 18
