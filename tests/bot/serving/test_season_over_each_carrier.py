"""The whole of it over each carrier of texts: asked, a yes, a morning that fails, texts in pieces,
STOP in the middle, another number, and a second crew on the same one.

The program runs as a process. The hosted carrier and the phone's app are stand-ins; the modem has
Gammu's own daemon on its dummy phone, and the message centre is the server of smpp34.
"""

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from deploy.standins.bot_api_standin import BotApiStandin
from tests.bot.serving.noon import where_it_is_noon
from tests.bot.serving.programs import QUICK_MODEM
from tests.bot.serving.served import ADA, Service, ask, with_crew
from tests.bot.serving.served import shown as shown_in_chat
from tests.bot.serving.text_lines import (
    CARRIERS,
    TextLine,
    running_line,
    shown,
    tell,
    wait_for_texts,
)

BEA, MILO_S_CHAT = 12, 13
MILO, NEW = "+12025550123", "+12025550124"


@pytest.fixture(params=CARRIERS)
def line(request: pytest.FixtureRequest, service: Service, tmp_path: Path) -> Iterator[TextLine]:
    """A carrier, and two owners on the chat: Ada with yard River, Bea with Ridge."""
    zone = where_it_is_noon()
    with_crew(service, zone=zone)
    with_crew(service, BEA, "Bea", ("Ridge",), zone)
    if request.param == "modem":
        service.program = QUICK_MODEM
    with running_line(request.param, tmp_path) as line:
        service.environment |= line.environment
        yield line


def test_a_partner_by_text_alone(service: Service, api: BotApiStandin, line: TextLine) -> None:
    with service.process():
        _joins(api, line)
        _has_a_chat_beside(api, line)
    service.make_morning_due(MILO, "sms")
    with service.process():
        morning = _a_morning_fails(api, line)
        _it_comes_on_the_chat(api, morning)
        _a_long_text_comes_in_parts_the_last_first(service, line)
        _two_texts_cut_by_hand_come_in_the_wrong_order(service, line)
        _stops_and_starts(service, line)
        _has_a_new_number(line)
        _is_in_a_second_crew(service, api, line)
    day = morning.splitlines()[0]
    assert sum(day in text for text in shown_in_chat(api, MILO_S_CHAT)) == 1
    assert service.secrets_written() == []
    assert MILO not in service.log


def _joins(api: BotApiStandin, line: TextLine) -> None:
    assert "I ask +12025550123 once" in ask(api, ADA, "invite Milo (202) 555-0123")
    (question,) = wait_for_texts(line, MILO, 1)
    assert question.startswith("Ada asks you")
    assert tell(line, MILO, "yes").startswith("Welcome Milo")


def _has_a_chat_beside(api: BotApiStandin, line: TextLine) -> None:
    code = re.search(r"join ([A-Z0-9]{6})", tell(line, MILO, "add chat"))
    assert code is not None
    assert "second way" in ask(api, MILO_S_CHAT, f"join {code[1]}", "Milo")


def _a_morning_fails(api: BotApiStandin, line: TextLine) -> str:
    in_chat = len(shown_in_chat(api, MILO_S_CHAT))
    *_, added, morning = wait_for_texts(line, MILO, 5)
    assert added.startswith("Telegram was added as a way to reach you.")
    assert "River:" in morning.splitlines()[0]
    assert len(shown_in_chat(api, MILO_S_CHAT)) == in_chat, "on both only if the first failed"
    line.lose_last(MILO)
    return morning


def _it_comes_on_the_chat(api: BotApiStandin, morning: str) -> None:
    day = morning.splitlines()[0]
    api.wait_until(
        lambda: any(day in text for text in shown_in_chat(api, MILO_S_CHAT)), "the morning"
    )


def _a_long_text_comes_in_parts_the_last_first(service: Service, line: TextLine) -> None:
    long = "1a eggs, 1b no eggs, 1c eggs. 2a note " + " ".join(f"calm{n}" for n in range(60))
    assert "Noted" in tell(line, MILO, long)
    said = Counter((e.place.unit, e.kind.value) for e in service.entries(ADA) if e.person == "Milo")
    told = {(str(unit), kind): count for (unit, kind), count in said.items()}
    assert told == {
        ("1a", "eggs"): 1, ("1b", "no_eggs"): 1, ("1c", "eggs"): 1, ("2a", "note"): 1,
    }  # fmt: skip
    (note,) = [entry.note for entry in service.entries(ADA) if entry.kind.value == "note"]
    assert note == long.partition("2a note ")[2]


def _two_texts_cut_by_hand_come_in_the_wrong_order(service: Service, line: TextLine) -> None:
    before = {unit: service.kinds(ADA, unit) for unit in ("2a", "2b")}
    second = tell(line, MILO, "no eggs")
    assert {unit: service.kinds(ADA, unit) for unit in before} == before, second
    first = tell(line, MILO, "2a eggs, 2b")
    assert "Noted: 2a eggs." in first
    assert '"2b": what did you find?' in first
    assert service.kinds(ADA, "2a") == [*before["2a"], "eggs"]
    assert service.kinds(ADA, "2b") == before["2b"], "nothing is guessed of the unit in between"
    assert "2b no eggs" in tell(line, MILO, "2b no eggs")


def _stops_and_starts(service: Service, line: TextLine) -> None:
    assert tell(line, MILO, "STOP").startswith("Stopped")
    count = len(shown(line, MILO))
    line.write(MILO, "stop")
    line.write(MILO, "2b fed 1 quart")
    assert len(wait_for_texts(line, MILO, count)) == count
    # It is answered only because they want texts again: what came between had no answer.
    line.write(MILO, "START")
    texts = wait_for_texts(line, MILO, count + 1)
    assert not any("fed" in text for text in texts[count:])
    assert service.kinds(ADA, "2b")[-1] == "fed"


def _has_a_new_number(line: TextLine) -> None:
    assert "Answer YES there" in tell(line, MILO, "my new number is 202 555 0124")
    (question,) = wait_for_texts(line, NEW, 1)
    assert "YES" in question
    before = len(shown(line, MILO))
    assert tell(line, NEW, "yes").startswith("Yes noted")
    assert "another number" in wait_for_texts(line, MILO, before + 1)[before]
    assert "not known here" in tell(line, MILO, "due")


def _is_in_a_second_crew(service: Service, api: BotApiStandin, line: TextLine) -> None:
    before = len(shown(line, NEW))
    assert "once, by text" in ask(api, BEA, "invite Miles 202 555 0124", "Bea")
    assert "beside yours" in wait_for_texts(line, NEW, before + 1)[before]
    assert "Welcome Miles" in tell(line, NEW, "yes")
    assert tell(line, NEW, "1a sealed brood").startswith("Bea's crew: Noted: 1a sealed brood")
    assert tell(line, NEW, "Ada: 1b sealed brood").startswith("Ada's crew: Noted: 1b sealed")
    assert service.kinds(ADA, "1a")[-1] == "eggs"
    assert service.kinds(ADA, "1b")[-1] == "sealed_brood"
    assert service.kinds(BEA, "1b")[-1] == "cell_placed"
