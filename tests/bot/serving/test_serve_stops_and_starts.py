"""The process is stopped, killed and started again; nothing is lost and nothing said twice."""

import signal
import socket
import time
from datetime import UTC, datetime

from sqlalchemy import select

from bot.channels.channel import IncomingMessage
from bot.delivery import inbox
from bot.delivery.message_tables import OutboxRow
from bot.delivery.rules import OutboxState
from deploy.standins.bot_api_faults import slow
from deploy.standins.bot_api_standin import BotApiStandin
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from scheduling.records.engine import reading, writing
from tests.bot.serving.served import ADA, MILO, Service, ask, invite_link_in, shown, with_crew


def test_sigterm_lets_the_message_in_hand_be_answered_and_ends_well(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service)
    with service.process() as process:
        ask(api, ADA, "due")
        api.next_send(slow(1))
        calls = api.calls.count("sendMessage")
        api.push_text(ADA, "1a eggs")
        api.wait_until(lambda: api.calls.count("sendMessage") > calls, "the send to begin")
        told = time.monotonic()
        process.send_signal(signal.SIGTERM)
        assert process.wait(WAIT_AT_MOST_SECONDS) == 0
        took = time.monotonic() - told

    assert took < 5
    assert "Noted: 1a eggs" in shown(api, ADA)[-1]
    assert states(service) == [OutboxState.SENT] * 2
    assert "ERROR" not in service.log
    assert "Traceback" not in service.log


def test_after_a_kill_what_was_stored_is_answered_once_and_what_was_answered_is_not_again(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service)
    with service.process() as process:
        written = api.push_text(ADA, "1a eggs")
        api.wait_until(lambda: states(service) == [OutboxState.SENT], "the answer marked")
        process.kill()
        assert process.wait(WAIT_AT_MOST_SECONDS) == -signal.SIGKILL
    api.push_again(written.update_id)
    store(service, "1b eggs", "1c no eggs")

    with service.process():
        api.wait_for_sent(3)
        ask(api, ADA, "1a")

    for number, noted in enumerate(("1a eggs", "1b eggs", "1c no eggs")):
        assert f"Noted: {noted}" in shown(api, ADA)[number]
    assert len(shown(api, ADA)) == 4
    said = [service.kinds(ADA, unit)[1:] for unit in ("1a", "1b", "1c")]
    assert said == [["eggs"], ["eggs"], ["no_eggs"]]


def test_an_invitation_asked_for_before_the_carrier_is_reached_has_its_code(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service)
    store(service, "invite")
    with service.running():
        api.wait_for_sent(1)
        assert "join " in shown(api, ADA)[0]
        code = invite_link_in(ask(api, ADA, "invite"))
        assert "share the yards" in ask(api, MILO, f"/start {code}", "Milo")


def store(service: Service, *texts: str) -> None:
    """Messages that the program stored, and was killed before it worked them through."""
    now = datetime.now(UTC)
    with writing(service.engine) as session:
        for number, text in enumerate(texts, start=9001):
            message = IncomingMessage("telegram", str(ADA), f"{ADA}:{number}", text, now, "Ada")
            assert inbox.accept(session, message, now) is not None


def test_the_service_manager_hears_that_it_is_ready_lives_and_stops(service: Service) -> None:
    with_crew(service)
    with socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM) as manager:
        manager.bind(str(service.folder / "notify"))
        manager.settimeout(WAIT_AT_MOST_SECONDS)
        service.environment["NOTIFY_SOCKET"] = str(service.folder / "notify")
        with service.process() as process:
            begun = {manager.recv(100) for _ in range(2)}
            process.send_signal(signal.SIGTERM)
            assert process.wait(WAIT_AT_MOST_SECONDS) == 0
        assert begun == {b"READY=1", b"WATCHDOG=1"}
        assert manager.recv(100) == b"STOPPING=1"


def states(service: Service) -> list[str]:
    """Where every message out stands, in the order planned."""
    with reading(service.engine) as session:
        return list(session.scalars(select(OutboxRow.state).order_by(OutboxRow.id)))
