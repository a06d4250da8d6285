"""Buttons under the bot's messages, pressed beside the stand-in: they belong to their message."""

from deploy.standins.bot_api_standin import BotApiStandin
from tests.bot.serving.served import ADA, Service, ask, shown, wait_for, with_crew


def test_a_pressed_button_is_taken_off_the_morning(api: BotApiStandin, service: Service) -> None:
    with_crew(service)
    service.make_morning_due(ADA)
    with service.running():
        wait_for(api, ADA, 1)
        morning = api.sent[0]
        api.push_tap(ADA, morning.message_id, "1 2 eggs")
        assert "Noted: 1 2 eggs." in wait_for(api, ADA, 2)[1]
        api.wait_until(lambda: bool(api.edited), "the edit")

    now = api.showing(ADA)[morning.message_id]
    assert now.text == f"{morning.text}\nNoted: 1 2 eggs."
    assert "1 2 eggs" not in str(now.buttons)
    assert len(shown(api, ADA)) == 2


def test_the_undo_under_an_older_answer_takes_that_back(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service)
    with service.running():
        ask(api, ADA, "1a eggs")
        first = api.sent[-1]
        ask(api, ADA, "1b eggs")
        api.push_tap(ADA, first.message_id, "undo")
        assert wait_for(api, ADA, 3)[2].startswith("Undone: 1a eggs.")
        api.wait_until(lambda: bool(api.edited), "the edit")

    assert api.showing(ADA)[first.message_id].buttons == ()
    assert service.kinds(ADA, "1a")[1:] == ["eggs", "strike"]
    assert service.kinds(ADA, "1b")[1:] == ["eggs"]
