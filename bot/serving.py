"""The running program: every configured channel, the dispatcher and the ticks."""

import asyncio
import signal
from collections.abc import AsyncIterator, Iterator, Mapping, Sequence
from contextlib import asynccontextmanager
from datetime import UTC, datetime

from sqlalchemy import Engine

from bot.bell.bell import Bell
from bot.carriers import OpenEngine, carriers_of, reached
from bot.channels.channel import Channel, Receive
from bot.channels.single_listener import listen_alone
from bot.channels.sms.phone_number import CHANNEL_NAME as BY_TEXT
from bot.channels.telegram.channel import TelegramChannel
from bot.channels.telegram.telegram_incoming import CHANNEL_NAME
from bot.channels.web_channel import WebChannel
from bot.desk.message_handler import MessageHandler
from bot.desk.texting import Texting
from bot.events import log_of
from bot.post.dispatcher import Dispatcher
from bot.post.sender import Clock
from bot.post.sms_budget import SmsBudget
from bot.settings.address import HttpAddress
from bot.settings.settings import Settings
from bot.version import version
from bot.watch.heartbeats import START, beat
from bot.weather.source import WeatherSource
from bot.wording.help import MENU

log = log_of(__name__)


class NothingToServeError(Exception):
    """No channel is configured; the message says which setting is missing."""


def channels_of(settings: Settings, engine: OpenEngine) -> Mapping[str, Channel]:
    """The channels that are configured, by name.

    Args:
        settings: what the owner set.
        engine: opens the database, for carriers that keep something in it.

    Raises:
        NothingToServeError: none is.
        SettingsError: a carrier lacks a setting.

    """
    channels = [*_telegram(settings), *carriers_of(settings, engine)]
    if not channels:
        raise NothingToServeError(
            "no channel is configured; set YARDBELL_TELEGRAM_TOKEN to your bot's token, "
            "or the settings of a carrier of texts or e-mail"
        )
    return {channel.traits.name: channel for channel in channels}


def sms_budget_of(settings: Settings) -> SmsBudget | None:
    """How many segments of SMS the owner pays for in a month; None for no end of them."""
    most = settings.sms.monthly_segments
    return None if most is None else SmsBudget(most)


def _telegram(settings: Settings) -> Iterator[Channel]:
    if settings.telegram.token is not None:
        token, url = settings.telegram.token.get_secret_value(), settings.telegram.url
        if settings.telegram.webhook:
            # Loaded only here, since most are not reached from outside.
            from bot.channels.telegram.webhook import TelegramWebhookChannel

            yield TelegramWebhookChannel(token, reached(settings), url, commands=MENU)
        else:
            yield TelegramChannel(token, url, commands=MENU)


def _now() -> datetime:
    return datetime.now(UTC)


async def serve(
    engine: Engine,
    channels: Mapping[str, Channel],
    zone: str,
    stop: asyncio.Event | None = None,
    weather: WeatherSource | None = None,
    http: HttpAddress | None = None,
    clock: Clock = _now,
    region: str | None = None,
    sms_budget: SmsBudget | None = None,
) -> None:
    """Run until told to stop, then finish the message in hand.

    Args:
        engine: the database, with its newest schema.
        channels: the channels by name.
        zone: the time zone a new crew starts with.
        stop: tells to stop when it is set; without it, SIGTERM or SIGINT does.
        weather: gives the yards' weather, and is closed at the end; None for none.
        http: where to answer HTTP; None for nowhere.
        clock: gives the present instant.
        region: the land (ISO 3166) whose phone numbers people write without a +.
        sms_budget: how many segments of SMS a month has; None for no end of them.

    Raises:
        CannotListenError: the address for HTTP is taken or not ours.
        ChannelBroken: a channel can never work (its token is refused).

    """
    stop = stop or _stop_signal()
    beat(START, clock())
    log.info(
        "starting",
        version=version(),
        channels=" ".join(channels),
        database=engine.dialect.name,
    )
    async with _answering(engine, http, clock, list(channels.values())):
        await _serve(engine, channels, zone, stop, weather, clock, region, sms_budget)


async def _serve(
    engine: Engine,
    channels: Mapping[str, Channel],
    zone: str,
    stop: asyncio.Event,
    weather: WeatherSource | None,
    clock: Clock,
    region: str | None,
    sms_budget: SmsBudget | None,
) -> None:
    dispatcher = _dispatcher(engine, channels, zone, clock, region, sms_budget)
    await dispatcher.catch_up()
    bell = Bell(engine, dispatcher, clock, list(channels), weather, sms_budget)
    bell.start()
    listening = [
        asyncio.create_task(_listen(engine, channel, dispatcher.receive))
        for channel in channels.values()
    ]
    try:
        await _until_stopped(stop, listening)
    finally:
        for task in listening:
            task.cancel()
        await asyncio.gather(*listening, return_exceptions=True)
        await dispatcher.finish()
        await bell.stop()
        if weather is not None:
            weather.close()
        for channel in channels.values():
            await channel.close()


async def _listen(engine: Engine, channel: Channel, receive: Receive) -> None:
    """Listen: alone where messages are fetched, beside the other workers where they are posted."""
    if isinstance(channel, WebChannel):
        await channel.listen(receive)
    else:
        await listen_alone(engine, channel, receive)


@asynccontextmanager
async def _answering(
    engine: Engine, http: HttpAddress | None, clock: Clock, channels: Sequence[Channel]
) -> AsyncIterator[None]:
    """Answer HTTP meanwhile, if there is an address for it: pages, and carriers' notices."""
    if http is None:
        yield
        return
    # Loaded only here, since most run without.
    from bot.web.app import app_of
    from bot.web.server import listening

    posted_to = [
        route for each in channels if isinstance(each, WebChannel) for route in each.routes()
    ]
    async with listening(app_of(engine, clock, posted_to), http):
        yield


def _dispatcher(
    engine: Engine,
    channels: Mapping[str, Channel],
    zone: str,
    clock: Clock,
    region: str | None,
    sms_budget: SmsBudget | None,
) -> Dispatcher:
    def link(code: str) -> str | None:
        return invite_link(channels.get(CHANNEL_NAME), code)

    texting = Texting(BY_TEXT in channels, region)
    handler = MessageHandler(zone, link, texting)
    return Dispatcher(engine, handler, channels, clock, sms_budget=sms_budget)


def invite_link(channel: Channel | None, code: str) -> str | None:
    """The link that carries an invite code, if the channel has links and is connected by now."""
    if not isinstance(channel, TelegramChannel):
        return None
    try:
        return channel.invite_link(code)
    except RuntimeError:
        return None


def _stop_signal() -> asyncio.Event:
    """An event that SIGTERM or SIGINT sets."""
    stop = asyncio.Event()
    loop = asyncio.get_running_loop()
    for each in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(each, stop.set)
    return stop


async def _until_stopped(stop: asyncio.Event, listening: list[asyncio.Task[None]]) -> None:
    """Wait for the signal to stop, or for a channel to break."""
    waiting = asyncio.create_task(stop.wait())
    done, _ = await asyncio.wait([waiting, *listening], return_when=asyncio.FIRST_COMPLETED)
    waiting.cancel()
    log.info("stopping")
    for task in done - {waiting}:
        task.result()
