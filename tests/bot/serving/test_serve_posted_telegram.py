"""The program where Telegram posts to it: a talk, a kill, and back to fetching."""

import httpx

from deploy.standins.bot_api_poster import posting
from deploy.standins.bot_api_standin import BotApiStandin
from deploy.standins.free_port import free_port
from tests.bot.serving.served import ADA, Service, ask, shown, wait_for


def test_a_talk_goes_on_over_posts_a_kill_and_back_to_fetching(
    service: Service, api: BotApiStandin
) -> None:
    port = free_port()
    service.environment |= {
        "YARDBELL_TELEGRAM_WEBHOOK": "true",
        "YARDBELL_HTTP": f"127.0.0.1:{port}",
        "YARDBELL_PUBLIC_URL": f"http://127.0.0.1:{port}",
    }
    with posting(api):
        with service.process() as process:
            ask(api, ADA, "/begin")
            assert httpx.get(f"http://127.0.0.1:{port}/health").status_code == 404
            assert httpx.get(f"http://127.0.0.1:{port}/metrics").status_code == 404
            ask(api, ADA, "new yard River")
            ask(api, ADA, "boxes 1-2 of 3")
            api.wait_until(service.all_marked, "the last mark")
            process.kill()
            process.wait()
            before = len(shown(api, ADA))
            api.push_text(ADA, "10 day cells in 1a-c")
        with service.process():
            wait_for(api, ADA, before + 1)
    assert "getUpdates" not in api.calls
    assert service.kinds(ADA, "1a") == ["cell_placed"]

    service.environment["YARDBELL_TELEGRAM_WEBHOOK"] = "false"
    with service.process():
        assert "1" in ask(api, ADA, "due")
    assert api.webhook is None
    assert api.webhook_left
