"""Twelve thousand bad notices, generated: none changes anything, none is answered with a detail."""

import asyncio
import random
from collections import Counter
from collections.abc import Callable
from datetime import timedelta
from urllib.parse import urlencode

from starlette.applications import Starlette

from tests.bot.channels.asgi_posts import Answered, post
from tests.bot.channels.twilio.noticing import AT, Receiver, headers, notice, status_path

Bad = tuple[str, bytes, dict[str, str]]
"""A path with its query, a body, and headers."""

EACH = 1000
MESSAGE = "/twilio/message"


def right(rng: random.Random) -> Bad:
    """A notice that would count as it is; the bad ones are made from it."""
    if rng.random() < 0.5:
        path, fields = MESSAGE, notice(Body=f"{rng.randint(1, 60)}a eggs")
    else:
        path, fields = status_path(), notice(MessageStatus=rng.choice(["delivered", "failed"]))
    return path, urlencode(fields).encode(), headers(path, fields)


def unsigned(rng: random.Random) -> Bad:
    path, body, given = right(rng)
    return path, body, {name: value for name, value in given.items() if name[:2] != "X-"}


def noise(rng: random.Random) -> Bad:
    path, _, given = right(rng)
    return path, rng.randbytes(rng.randint(0, 300)), given


def another_body(rng: random.Random) -> Bad:
    path, body, given = right(rng)
    at = rng.randrange(len(body))
    changed = bytes([body[at] ^ rng.randint(1, 127)])
    # A changed letter that means the same (%2B and %2b) leaves the notice as it was signed.
    if body[at : at + 1].lower() == changed.lower():
        changed = b"!"
    return path, body[:at] + changed + body[at + 1 :], given


def cut_short(rng: random.Random) -> Bad:
    path, body, given = right(rng)
    return path, body[: rng.randrange(len(body) - 1)], given


def with_more(rng: random.Random) -> Bad:
    path, body, given = right(rng)
    more = rng.choice(["&Body=5b+eggs", "&From=%2B12025550199", "&x", "&", "&MessageStatus=failed"])
    return path, body + more.encode() + b"&y=1", given


def another_signature(rng: random.Random) -> Bad:
    path, body, given = right(rng)
    said = given["X-Twilio-Signature"]
    wrong = rng.choice(["", said[:-1], said + "=", said.swapcase(), "é" * 28, "A" * 28, said[::-1]])
    return path, body, given | {"X-Twilio-Signature": wrong}


def another_token(rng: random.Random) -> Bad:
    path, body, _ = right(rng)
    fields = notice()
    return path, body, headers(path, fields, token=f"guess-{rng.random()}")


def another_path(rng: random.Random) -> Bad:
    path, body, given = right(rng)
    moved = status_path() if path == MESSAGE else MESSAGE
    return rng.choice([moved, path + "&x=1", path + "?y=1", path + "/"]), body, given


def stale(rng: random.Random) -> Bad:
    at = AT - timedelta(days=rng.randint(4, 4000))
    path, fields = status_path(at), notice(MessageStatus="failed")
    return path, urlencode(fields).encode(), headers(path, fields)


def without_sound_names(rng: random.Random) -> Bad:
    wrong = rng.choice([{"MessageSid": rng.choice(["", "SM", "SMxyz", "SM" + "0" * 31, "../etc"])},
                        {"AccountSid": "AC" + "9" * 32, "MessageSid": "SM"}])  # fmt: skip
    path = rng.choice([MESSAGE, status_path()])
    fields = notice(MessageStatus="sent", **wrong)
    return path, urlencode(fields).encode(), headers(path, fields)


def too_long(rng: random.Random) -> Bad:
    path, body, given = right(rng)
    told = {"Content-Length": str(rng.choice([16_385, 10**9, 10**30]))}
    length = told if rng.random() < 0.5 else {}
    return path, body + b"&z=" + b"z" * rng.randint(16_384, 40_000), given | length


def crooked_settings(rng: random.Random) -> Bad:
    path, body, given = right(rng)
    said = rng.choice(
        ["algorithm=HMAC_SHA1", "key=k,algorithm=none", "x", "é", "algorithm=HMAC_SHA256"]
    )
    return path, body, given | {"X-Twilio-Webhooks-Signature-Settings": said}


KINDS: tuple[Callable[[random.Random], Bad], ...] = (
    unsigned, noise, another_body, cut_short, with_more, another_signature, another_token,
    another_path, stale, without_sound_names, too_long, crooked_settings,
)  # fmt: skip


async def post_all(
    receiver: Receiver, app: Starlette, kind: Callable[[random.Random], Bad]
) -> Counter[int]:
    rng = random.Random(kind.__name__)  # noqa: S311 - examples, no secrets
    statuses: Counter[int] = Counter()
    for _ in range(EACH):
        # Slow enough for every one to be looked at.
        receiver.now += timedelta(seconds=0.2)
        path, body, given = kind(rng)
        answered = await post(app, path, body, given)
        assert answered.body in (b"", b"Not Found"), (kind.__name__, path, body)
        statuses[answered.status] += 1
        assert (receiver.messages, receiver.reports) == ([], []), (kind.__name__, path, body)
    return statuses


def test_twelve_thousand_bad_notices_change_nothing() -> None:
    receiver = Receiver()

    async def run() -> dict[str, Counter[int]]:
        async with receiver.open() as app:
            return {kind.__name__: await post_all(receiver, app, kind) for kind in KINDS}

    answered = asyncio.run(run())
    assert sum(sum(statuses.values()) for statuses in answered.values()) == 12_000
    assert set(answered["too_long"]) == {413}
    assert set(answered["another_path"]) <= {403, 307, 404}
    others = set(answered) - {"too_long", "another_path"}
    assert {status for kind in others for status in answered[kind]} == {403}


def test_the_notices_they_are_made_from_do_count() -> None:
    receiver = Receiver()
    rng = random.Random(7)  # noqa: S311 - examples, no secrets

    async def run() -> list[Answered]:
        async with receiver.open() as app:
            return [await post(app, *right(rng)) for _ in range(100)]

    assert {one.status for one in asyncio.run(run())} == {200, 204}
    assert len(receiver.messages) + len(receiver.reports) == 100
