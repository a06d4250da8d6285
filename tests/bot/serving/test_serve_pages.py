"""The pages of the running program: its health, its metrics, and who may see them."""

import re
import socket
import time

import httpx
import pytest
from prometheus_client.parser import text_string_to_metric_families

from bot.version import version
from deploy.standins.bot_api_faults import flood
from deploy.standins.bot_api_standin import BotApiStandin
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from tests.bot.serving.served import ADA, Service, ask, wait_for_log, with_crew


def pages(service: Service) -> str:
    """The address that the program says it listens on."""
    wait_for_log(service, "event=listening")
    found = re.search(r"listening=(\S+)", service.log)
    assert found is not None
    return f"http://{found[1]}"


def metrics(address: str) -> dict[str, float]:
    """Every sample by its name and labels, read by Prometheus' own parser."""
    text = httpx.get(f"{address}/metrics").raise_for_status().text
    return {
        " ".join([sample.name, *sorted(sample.labels.values())]): sample.value
        for family in text_string_to_metric_families(text)
        for sample in family.samples
    }


def test_health_and_metrics_of_a_conversation(api: BotApiStandin, service: Service) -> None:
    with_crew(service)
    service.environment["YARDBELL_PAGES"] = "0"
    with service.process():
        address = pages(service)
        ask(api, ADA, "1a eggs")
        ask(api, ADA, "xyzzy")
        ask(api, ADA, "due")
        api.next_send(flood(1))
        ask(api, ADA, "1b eggs, xyzzy")
        time.sleep(0.3)
        well = httpx.get(f"{address}/health")
        told = metrics(address)
        nothing = httpx.get(f"{address}/")

    assert address.startswith("http://127.0.0.1:")
    assert (well.status_code, nothing.status_code) == (200, 404)
    assert well.json() == {"ok": True, "ticks": True, "database": True, "silent": []}
    assert told["yardbell_messages_in_total telegram"] == 4
    assert told["yardbell_sends_total sent telegram"] == 4
    assert told["yardbell_sends_total later telegram"] == 1
    assert told["yardbell_readings_total noted"] == 1
    assert told["yardbell_readings_total command"] == 1
    assert sum(told[name] for name in told if name.startswith("yardbell_readings_total")) == 4
    assert told["yardbell_outbox sent"] == 4
    assert told["yardbell_outbox planned"] == 0
    assert told["yardbell_inbox done"] == 4
    assert told["yardbell_people"] == 1
    assert told[f"yardbell_build_info {version()}"] == 1
    assert told["yardbell_polls_total telegram"] >= 4
    assert told["yardbell_ticks_total done outbox"] >= 1
    assert "yardbell_outbox_oldest_planned_timestamp_seconds" not in told
    assert told["yardbell_heartbeat_timestamp_seconds start"] == pytest.approx(time.time(), abs=60)
    assert str(ADA) not in " ".join(told)


def test_without_the_setting_nothing_listens(api: BotApiStandin, service: Service) -> None:
    with_crew(service)
    with service.process():
        ask(api, ADA, "due")

    assert "listening" not in service.log


def test_an_address_that_is_taken_is_one_line_and_exit_code_2(service: Service) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        address = f"127.0.0.1:{taken.getsockname()[1]}"
        service.environment["YARDBELL_PAGES"] = address
        with service.process() as process:
            assert process.wait(WAIT_AT_MOST_SECONDS) == 2

    said = service.log.splitlines()[-1]
    assert said == f"yardbell: YARDBELL_PAGES: cannot listen on {address}: Address already in use"
