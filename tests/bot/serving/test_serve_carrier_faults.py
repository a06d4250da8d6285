"""What the carrier does wrong: floods, refusals, cut lines, errors, absence."""

import time

import pytest

from deploy.standins.bot_api_faults import (
    Drop,
    Fault,
    dropped,
    flood,
    forbidden,
    server_error,
)
from deploy.standins.bot_api_standin import BotApiStandin, running_standin
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from tests.bot.serving.served import (
    ADA,
    MILO,
    Service,
    ask,
    shown,
    wait_for,
    wait_for_log,
    with_crew,
)


def test_a_flood_is_waited_out_as_long_as_asked_and_not_shorter(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service)
    with service.running():
        ask(api, ADA, "due")
        api.next_send(flood(3))
        calls = api.calls.count("sendMessage")
        api.push_text(ADA, "1a eggs")
        api.wait_until(lambda: api.calls.count("sendMessage") > calls, "the refused send")
        refused = time.monotonic()
        wait_for(api, ADA, 2)
        waited = time.monotonic() - refused

    assert 2.9 <= waited < 6
    assert api.calls.count("sendMessage") == calls + 2


@pytest.mark.parametrize(
    ("fault", "copies"),
    [
        (dropped(Drop.BEFORE_EFFECT), 1),
        (dropped(Drop.AFTER_EFFECT), 2),
        (server_error(), 1),
    ],
    ids=["cut before", "cut after", "500"],
)
def test_an_answer_gets_through_a_fault_and_comes_twice_at_most_when_in_doubt(
    api: BotApiStandin, service: Service, fault: Fault, copies: int
) -> None:
    with_crew(service)
    with service.running():
        api.next_send(fault)
        api.push_text(ADA, "1a eggs")
        wait_for(api, ADA, copies)
        assert "cell in" in ask(api, ADA, "1b")

    answers = shown(api, ADA)[:-1]
    assert len(answers) == copies
    assert len(set(answers)) == 1
    assert service.kinds(ADA, "1a").count("eggs") == 1


def test_who_blocked_the_bot_gets_no_morning_until_they_write_again(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service, ADA, "Ada")
    with_crew(service, MILO, "Milo")
    service.make_morning_due(ADA)
    api.next_send(forbidden())
    with service.running():
        api.wait_until(lambda: "sendMessage" in api.calls, "the refused morning")
        assert "Look for eggs" in ask(api, MILO, "due", "Milo")
    assert service.unreachable(ADA)

    service.make_morning_due(ADA)
    with service.running():
        ask(api, MILO, "due", "Milo")
        assert shown(api, ADA) == []
        assert "Look for eggs" in ask(api, ADA, "due")
    assert not service.unreachable(ADA)


def test_who_stopped_gets_no_morning(api: BotApiStandin, service: Service) -> None:
    with_crew(service, ADA, "Ada")
    with_crew(service, MILO, "Milo")
    with service.running():
        assert "Stopped" in ask(api, ADA, "stop")
    service.make_morning_due(ADA)
    service.make_morning_due(MILO)
    with service.running():
        wait_for(api, MILO, 1)
        ask(api, MILO, "due", "Milo")

    assert len(shown(api, ADA)) == 1


def test_started_before_the_carrier_is_there_it_serves_once_it_is(service: Service) -> None:
    with_crew(service)
    with running_standin() as gone:
        service.url = gone.url
    with service.process():
        wait_for_log(service, "trying again")
        with running_standin(again=gone) as back:
            assert "Noted: 1a eggs" in ask(back, ADA, "1a eggs")


def test_a_refused_token_is_one_line_and_exit_code_2(service: Service) -> None:
    service.token = "123456:ANOTHER-INVENTED-TOKEN"  # noqa: S105 - invented
    with service.process() as process:
        assert process.wait(WAIT_AT_MOST_SECONDS) == 2

    said = [line for line in service.log.splitlines() if line.startswith("yardbell:")]
    assert said == ["yardbell: Telegram does not know this bot's token"]
    assert "Traceback" not in service.log
