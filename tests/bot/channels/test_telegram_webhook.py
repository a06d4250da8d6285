"""A bot that Telegram posts to: only what carries the secret counts, and nothing is lost."""

import asyncio
import json
import re
from collections.abc import Awaitable, Callable
from random import Random

from starlette.applications import Starlette

from bot.channels.telegram.webhook import (
    MOST_OCTETS,
    PATH,
    SECRET_HEADER,
    TelegramWebhookChannel,
    secret_of,
)
from deploy.standins.bot_api_queue import UpdateQueue
from deploy.standins.bot_api_standin import TOKEN, BotApiStandin, running_standin
from deploy.standins.quick_retry import QUICK
from tests.bot.channels.asgi_posts import post
from tests.bot.channels.telegram_listening import Desk, eventually

ADA = 5001
OURS = {SECRET_HEADER: secret_of(TOKEN)}

Post = Callable[..., Awaitable[int]]


def update(text: str = "4b eggs") -> bytes:
    queue = UpdateQueue()
    queue.message(ADA, "Ada", {"text": text})
    return json.dumps(queue.due(1)[0]).encode()


def with_posts(desk: Desk, posts: Callable[[Post], Awaitable[None]]) -> BotApiStandin:
    """Listen with a stand-in beside, and let ``posts`` post."""

    async def run(api: BotApiStandin) -> None:
        channel = TelegramWebhookChannel(TOKEN, "https://y.example/", api.url, retry=QUICK)
        app = Starlette(routes=channel.routes())

        async def one(body: bytes, headers: dict[str, str] = OURS) -> int:
            return (await post(app, PATH, body, headers)).status

        listening = asyncio.create_task(channel.listen(desk.receive))
        await eventually(lambda: api.webhook is not None and "setWebhook" in api.calls)
        await eventually(lambda: channel._receive is not None)
        await posts(one)
        listening.cancel()
        await asyncio.gather(listening, return_exceptions=True)
        assert await one(update()) == 503
        await channel.close()

    with running_standin() as api:
        asyncio.run(run(api))
        return api


def test_the_bot_says_where_it_is_posted_to_and_with_which_secret() -> None:
    async def nothing(_: Post) -> None:
        pass

    webhook = with_posts(Desk(), nothing).webhook

    assert webhook is not None
    assert webhook["url"] == "https://y.example/telegram/updates"
    assert webhook["secret_token"] == secret_of(TOKEN)
    assert webhook["max_connections"] == "1"
    assert json.loads(webhook["allowed_updates"]) == [
        "message",
        "edited_message",
        "callback_query",
        "my_chat_member",
    ]


def test_the_secret_is_of_the_letters_that_telegram_takes_and_no_part_of_the_token() -> None:
    """Bot API, setWebhook: 1 to 256 of A-Z, a-z, 0-9, _ and - (from memory)."""
    assert re.fullmatch(r"[A-Za-z0-9_-]{1,256}", secret_of(TOKEN))
    assert secret_of(TOKEN) not in TOKEN
    assert secret_of(TOKEN) != secret_of(TOKEN + "x")


def test_a_posted_message_is_taken_in() -> None:
    desk = Desk()

    async def posts(one: Post) -> None:
        assert await one(update("4b eggs")) == 200

    with_posts(desk, posts)
    assert [(each.address, each.id, each.text) for each in desk.received] == [
        ("5001", "5001:1", "4b eggs")
    ]


def test_what_could_not_be_stored_is_to_be_posted_again() -> None:
    desk = Desk(failures=1)

    async def posts(one: Post) -> None:
        assert await one(update()) == 503
        assert await one(update()) == 200

    with_posts(desk, posts)
    assert desk.texts == ["4b eggs"]


def test_without_the_secret_nothing_counts_and_nothing_is_told() -> None:
    desk = Desk()
    wrong = [
        {},
        {SECRET_HEADER: ""},
        {SECRET_HEADER: secret_of("other")},
        {SECRET_HEADER: "\u00e9"},
    ]

    async def posts(one: Post) -> None:
        assert [await one(update(), headers) for headers in wrong] == [403] * len(wrong)

    with_posts(desk, posts)
    assert desk.offered == []


def test_what_the_library_cannot_read_is_left_out_and_does_not_come_again() -> None:
    desk = Desk()
    odd = [b"", b"[]", b"{}", b"null", b'{"update_id": "x"}', b"\xff", b"[" * 5000]
    odd += [b'{"update_id": 5, "message": {"message_id": "no number"}}', b'{"update_id": 6}']

    async def posts(one: Post) -> None:
        assert [await one(body) for body in odd] == [200] * len(odd)
        assert await one(b"x" * (MOST_OCTETS + 1)) == 413
        assert await one(update()) == 200

    with_posts(desk, posts)
    assert desk.texts == ["4b eggs"]


def test_ten_thousand_bad_posts_change_nothing() -> None:
    desk, random = Desk(), Random(11)  # noqa: S311 - no secret
    good, seen = update(), set[int]()

    async def posts(one: Post) -> None:
        for _ in range(10_000):
            body = bytearray(good)
            for _ in range(random.randint(0, 4)):
                body[random.randrange(len(body))] = random.randrange(256)
            said = "".join(random.choices("0123456789abcdef", k=random.choice((0, 8, 64))))
            seen.add(await one(bytes(body), {SECRET_HEADER: said}))

    with_posts(desk, posts)
    assert seen == {403, 429}
    assert desk.offered == []


def test_a_longest_message_with_the_one_it_answers_fits() -> None:
    """A message has 4,096 characters at most: Bot API, sendMessage (from memory)."""
    longest = update("\N{HONEYBEE}" * 2048)
    assert len(longest) * 2 < MOST_OCTETS


def test_an_update_that_cannot_be_read_is_taken_once_and_for_all() -> None:
    desk = Desk()
    bad = [
        b'{"update_id": 1e400}',
        b'{"update_id": -1e400, "message": {}}',
        b'{"update_id": 7, "message": {"message_id": 1e400, "date": 1e400, "chat": {}}}',
        b"[" * 100_000,
    ]

    async def posts(one: Post) -> None:
        for body in bad:
            assert await one(body) == 200
        assert await one(update("4b eggs")) == 200

    with_posts(desk, posts)
    assert desk.texts == ["4b eggs"]
