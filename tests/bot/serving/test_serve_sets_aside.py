"""A message that kills the program does not kill it for ever, and everybody else is answered."""

import json

from bot.wording.help import went_wrong
from deploy.standins.bot_api_standin import BotApiStandin
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from tests.bot.serving.programs import DIES_OF, DYING
from tests.bot.serving.served import ADA, MILO, Service, ask, shown, wait_for, with_crew


def test_what_kills_the_program_is_set_aside_and_the_rest_goes_on(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service)
    service.program = DYING
    with service.process() as process:
        ask(api, ADA, "due")
        api.push_text(ADA, DIES_OF)
        api.push_text(MILO, "hello", "Milo")
        assert process.wait(WAIT_AT_MOST_SECONDS) == 9
    died = 1
    while api.unconfirmed and died < 9:
        with service.process() as process:
            api.wait_until(
                lambda now=process: now.poll() is not None or not api.unconfirmed,  # type: ignore[misc]
                "the process to die or to confirm",
            )
            if process.poll() == 9:
                died += 1
                continue
            wait_for(api, ADA, 2)
            wait_for(api, MILO, 1)
            assert "Nothing is due" in ask(api, ADA, "tomorrow") or shown(api, ADA)
            status = json.loads(service.command("status", "--json"))

    assert died == 3
    assert shown(api, ADA)[1] == went_wrong()
    assert status["inbox"]["set_aside"] == 1
    assert "1 set aside" in service.command("status")
