"""Messages that come twice, edited, too long, or without words."""

from deploy.standins.bot_api_standin import BotApiStandin
from tests.bot.serving.served import ADA, Service, ask, shown, wait_for, with_crew


def test_odd_messages_are_answered_once_and_change_only_what_they_say(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service)
    with service.running():
        written = api.push_text(ADA, "1a eggs")
        wait_for(api, ADA, 1)
        api.push_again(written.update_id)
        assert "text only" in ask(api, ADA, " ")
        assert service.kinds(ADA, "1a") == ["cell_placed", "eggs"]

        api.push_edit(written, "1a no eggs")
        assert "Corrected: 1a no eggs" in wait_for(api, ADA, 3)[2]
        assert service.kinds(ADA, "1a") == ["cell_placed", "eggs", "strike", "no_eggs"]

        assert "too long" in ask(api, ADA, "1b eggs " * 512 + "!")
        api.push_content(ADA, {"sticker": STICKER})
        assert "text only" in wait_for(api, ADA, 5)[4]
        api.push_content(ADA, {"text": "1c eggs"}, kind="group")
        assert "cell in" in ask(api, ADA, "1c")

    assert len(shown(api, ADA)) == 6
    assert service.kinds(ADA, "1b") == ["cell_placed"]


STICKER = {
    "file_id": "invented",
    "file_unique_id": "invented",
    "type": "regular",
    "width": 512,
    "height": 512,
    "is_animated": False,
    "is_video": False,
}


def test_the_log_holds_no_words_of_people_and_no_token(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service)
    with service.process():
        ask(api, ADA, "1a note my back hurts today")
        ask(api, ADA, "xyzzy plugh")
    log = service.log

    assert "stopping" in log
    for words in ("my back hurts", "plugh", "Ada", service.token, service.token.split(":")[1]):
        assert words not in log
