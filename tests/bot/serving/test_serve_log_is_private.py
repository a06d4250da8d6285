"""A whole conversation goes through ``yardbell serve``, and nothing of it is in the log."""

import json
import os
import re
from pathlib import Path

from sqlalchemy import select

from bot.delivery.message_tables import InboxRow, OutboxRow
from bot.version import version
from deploy.standins.bot_api_faults import Drop, bad_request, dropped, flood, forbidden, moved
from deploy.standins.bot_api_standin import BotApiStandin
from scheduling.records.engine import reading
from tests.bot.serving.served import (
    Service,
    ask,
    invite_link_in,
    shown,
    wait_for,
    wait_for_log,
)

ADA, MILO = 1_423_555_014, 1_423_555_015
"""Invented chats, of as many digits as real ones have."""

OUR_OWN = {
    *("bot", "channel", "due", "event", "failed", "found", "from", "long", "looked", "message"),
    *(
        "morning",
        "mornings",
        "name",
        "not",
        "nothing",
        "number",
        "out",
        "sent",
        "started",
        "telegram",
    ),
    *("the", "tried", "was", "what", "worked", "through", "yard"),
}
"""Words of people's texts that the log's own fixed texts, names and paths hold too."""

WORDS = re.compile(r"[A-Za-z]{3,}|\d{5,}")


def converse(api: BotApiStandin) -> None:
    """From the first word to a morning, with everything going wrong once."""
    ask(api, ADA, "/begin", "Adelheid Beispiel")
    # The test runs at whatever hour it is.
    ask(api, ADA, "quiet off")
    ask(api, ADA, "new yard Quarryside")
    ask(api, ADA, "boxes 1-2 of 3")
    ask(api, ADA, "10 day cells in 1a-c")
    ask(api, ADA, "location 41.31234, -92.65432")
    code = invite_link_in(ask(api, ADA, "invite"))
    before = len(shown(api, ADA))
    ask(api, MILO, f"/start {code}", "Milorad Muster")
    wait_for(api, ADA, before + 1)
    ask(api, MILO, "1a note my lumbago is dreadful", "Milorad Muster")
    ask(api, MILO, "xyzzy plugh 423-555-0148", "Milorad Muster")
    ask(api, MILO, "undo", "Milorad Muster")
    api.next_call("getUpdates", dropped(Drop.BEFORE_EFFECT), bad_request(f"chat {ADA} is odd"))
    api.next_send(flood(1))
    ask(api, ADA, "1b virgin seen")
    api.next_send(moved(MILO + 10))
    api.push_text(MILO, "due", "Milorad Muster")
    wait_for(api, MILO + 10, 1)
    api.push_raw({"message": {"message_id": "no number", "chat": ADA, "text": "gibberish"}})
    api.next_send(forbidden())
    api.push_text(ADA, "queens")
    ask(api, ADA, "failing")


def everything_said(service: Service, api: BotApiStandin) -> set[str]:
    """Every word and long number of every text, name and address in and out."""
    with reading(service.engine) as session:
        said = [
            part for row in session.scalars(select(InboxRow)) for part in (row.text, row.sender)
        ]
        said += [row.text for row in session.scalars(select(OutboxRow))]
    said += [*shown(api, ADA), *shown(api, MILO), str(ADA), str(MILO), str(MILO + 10)]
    said += ["41.31234", "92.65432", "gibberish"]
    return {word for text in said for word in WORDS.findall(text)}


def test_no_word_number_or_token_of_a_conversation_is_in_the_log(
    api: BotApiStandin, service: Service
) -> None:
    with service.process():
        converse(api)
        service.make_morning_due(ADA)
        wait_for_log(service, "mornings looked at")
    log = _without_our_own(service.log)

    assert len(log.splitlines()) > 30
    assert service.token.split(":")[1] not in service.log
    words = {word for word in everything_said(service, api) if word.lower() not in OUR_OWN}
    assert len(words) > 100
    found = {word for word in words if re.search(rf"(?<![A-Za-z\d]){word}(?![A-Za-z\d])", log)}
    assert found == set()


def _without_our_own(log: str) -> str:
    """The log without the paths of our own code, whose file names are words of the trade."""
    ours = re.escape(str(Path(__file__).parents[3]))
    return re.sub(rf"{ours}/[^ ]+ \w+", "", log)


def test_each_line_is_one_event_that_a_machine_can_read(
    api: BotApiStandin, service: Service
) -> None:
    service.environment["YARDBELL_LOG_JSON"] = "true"
    with service.process():
        ask(api, ADA, "/begin")
    lines = [json.loads(line) for line in service.log.splitlines()]

    assert [line["event"] for line in lines[:2]] == ["settings read", "starting"]
    assert lines[0]["settings"] == os.devnull
    assert lines[1]["channels"] == "telegram"
    assert lines[1]["version"] == version()
    assert {"at", "level", "from", "event"} <= set.intersection(*(set(line) for line in lines))
    assert {"worked through", "a message was sent", "stopping"} <= {line["event"] for line in lines}
