"""The side of the Bot API that posts updates to a bot's webhook, one after the other."""

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager

import httpx

from deploy.standins.bot_api_standin import BotApiStandin
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS

AGAIN_SECONDS = 0.05


@contextmanager
def posting(api: BotApiStandin) -> Iterator[list[int]]:
    """Post what waits whenever the bot has a webhook; gives the answers of HTTP, in order.

    As the real server does, one that is not answered well is posted again before the next.
    """
    stop, answers = threading.Event(), list[int]()

    def run() -> None:
        with httpx.Client(timeout=10) as http:
            while not stop.is_set():
                if not _posted(api, http, answers):
                    time.sleep(AGAIN_SECONDS)

    thread = threading.Thread(target=run, daemon=True)
    thread.start()
    try:
        yield answers
    finally:
        stop.set()
        thread.join(WAIT_AT_MOST_SECONDS)


def _posted(api: BotApiStandin, http: httpx.Client, answers: list[int]) -> bool:
    webhook, update = api.webhook, api.posted()
    if webhook is None or update is None:
        return False
    secret = {"X-Telegram-Bot-Api-Secret-Token": webhook["secret_token"]}
    try:
        answer = http.post(webhook["url"], json=update, headers=secret)
    except httpx.HTTPError:
        return False
    answers.append(answer.status_code)
    if not answer.is_success:
        return False
    api.confirm(update)
    return True
