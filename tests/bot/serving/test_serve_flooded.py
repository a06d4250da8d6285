"""A flood of connections at the port for carriers: everybody is answered while it runs."""

import time

import httpx
import pytest

from deploy.standins.bot_api_poster import posting
from deploy.standins.bot_api_standin import BotApiStandin
from deploy.standins.free_port import free_port
from tests.bot.serving.half_heads import flooded
from tests.bot.serving.programs import QUICK
from tests.bot.serving.served import ADA, Service, ask, wait_for_log, with_crew

MOST_FILES = 1024
"""The usual limit on open files of a process, systemd's too."""

HALF_HEADS = 1100
"""More than a process may have open."""

SECONDS = 10
"""How long the flood is watched; longer than a head may take."""


FEW_FILES = f"""
import resource
resource.setrlimit(resource.RLIMIT_NOFILE, ({MOST_FILES}, {MOST_FILES}))
{QUICK}
"""
"""The program with that limit, whatever this machine's is."""


@pytest.mark.parametrize("posted", [False, True], ids=["fetched", "posted"])
def test_everybody_is_answered_while_half_heads_flood_the_port(
    service: Service, api: BotApiStandin, posted: bool
) -> None:
    with_crew(service)
    port, pages = free_port(), free_port()
    service.environment |= {
        "YARDBELL_TELEGRAM_WEBHOOK": str(posted).lower(),
        "YARDBELL_HTTP": f"127.0.0.1:{port}",
        "YARDBELL_PAGES": f"127.0.0.1:{pages}",
        "YARDBELL_PUBLIC_URL": f"http://127.0.0.1:{port}",
        "YARDBELL_LOG_LEVEL": "INFO",
    }
    service.program = FEW_FILES
    with posting(api), service.process():
        wait_for_log(service, "event=listening")
        ask(api, ADA, "due")
        before = len(service.log)
        with flooded("127.0.0.1", port, HALF_HEADS) as flood:
            time.sleep(1)
            took = _answers(api, SECONDS)
            well = httpx.get(f"http://127.0.0.1:{pages}/health", timeout=5)
        grown = len(service.log) - before

    assert flood.opened >= HALF_HEADS
    assert len(took) >= 3
    assert max(took) < 5
    assert well.json()["ok"]
    assert grown < 100_000


def _answers(api: BotApiStandin, seconds: float) -> list[float]:
    """Ask for so long, one after the other, and give how long each answer took."""
    took, until = [], time.monotonic() + seconds
    while (began := time.monotonic()) < until:
        ask(api, ADA, "due")
        took.append(time.monotonic() - began)
    return took
