"""The running program: every configured channel, the dispatcher and the ticks.

On some channels only one of many workers may listen.
"""

import asyncio
import signal
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime, timedelta

from sqlalchemy import Engine

from bot.channel_factory import OpenEngine, channels_of
from bot.channels.channel import Channel, Receive, WebChannel
from bot.channels.sms.phone_number import Texting
from bot.channels.telegram.channel import TelegramChannel
from bot.channels.traits import SMS, TELEGRAM
from bot.conversation.message_handler import MessageHandler
from bot.delivery.answer_limit import AnswerLimit
from bot.delivery.dispatcher import App, Dispatcher
from bot.delivery.in_hand import CAREFUL_FOR, begin_run, end_run
from bot.delivery.sms_budget import SmsBudget
from bot.jobs.dead_mans_switch import DeadMansSwitch
from bot.jobs.job_scheduler import JobScheduler
from bot.jobs.service_manager import Life, tell_service_manager
from bot.monitoring import START, beat, founding_name
from bot.program_log import log_of
from bot.settings.settings import Settings
from bot.version import version
from bot.weather.csv_hours import CsvHours
from bot.weather.open_meteo import OpenMeteo
from bot.weather.refresh import WeatherSource
from scheduling.records.locks import LastingLock

log = log_of(__name__)

LOOK_AGAIN = timedelta(seconds=5)
"""How long a worker waits before it asks anew whether the lock is free, or still its own."""


async def listen_alone(
    engine: Engine, channel: Channel, receive: Receive, look_again: timedelta = LOOK_AGAIN
) -> None:
    """Listen whenever no other worker on this database does, until cancelled.

    A bot that two fetched from would give each of them only some of its messages.

    Raises:
        ChannelBroken: the channel can never work.
    """
    while True:
        lock = LastingLock(engine, f"listening:{channel.traits.name}")
        try:
            if await _taken(lock):
                await _listen_while_held(lock, channel, receive, look_again)
        finally:
            lock.give_back()
        await asyncio.sleep(look_again.total_seconds())


async def _taken(lock: LastingLock) -> bool:
    try:
        return await asyncio.to_thread(lock.take)
    except Exception:
        log.exception("the database could not be asked whether another worker listens")
        return False


async def _listen_while_held(
    lock: LastingLock, channel: Channel, receive: Receive, look_again: timedelta
) -> None:
    listening = asyncio.create_task(channel.listen(receive))
    try:
        while await asyncio.to_thread(lock.is_held):
            done, _ = await asyncio.wait([listening], timeout=look_again.total_seconds())
            if done:
                return listening.result()
        log.warning("stopped listening, another worker may listen now", channel=channel.traits.name)
    finally:
        listening.cancel()
        await asyncio.gather(listening, return_exceptions=True)


def app_of(settings: Settings, engine: OpenEngine, zone: str) -> App:
    """Make the parts from what the owner set.

    Args:
        settings: what the owner set.
        engine: opens the database.
        zone: the time zone a new crew starts with.

    Raises:
        NothingToServeError: no channel is configured.
        SettingsError: a carrier lacks a setting.
    """
    channels = channels_of(settings, engine)
    return App(
        engine=engine(),
        channels=channels,
        zone=zone,
        founding=settings.crews.founded_by,
        weather=weather_of(settings),
        http=settings.http_address,
        pages=settings.pages_address,
        kept=timedelta(days=settings.keep_days),
        texting=_texting(settings, SMS.name in channels),
        sms_budget=SmsBudget(settings.sms.monthly_segments),
        answer_limit=AnswerLimit(settings.sms.daily_answer_segments),
    )


def _texting(settings: Settings, running: bool) -> Texting:
    sms = settings.sms
    lands = tuple((sms.lands or "").split())
    return Texting(running, sms.region, lands, sms.daily_invites, sms.crew_daily_invites)


async def serve(
    app: App, stop: asyncio.Event | None = None, alive: DeadMansSwitch | None = None
) -> None:
    """Run until told to stop, then finish the message in hand.

    Args:
        app: the parts.
        stop: tells to stop when it is set; without it, SIGTERM or SIGINT does.
        alive: is told every few minutes that all is well; None for nobody.

    Raises:
        CannotListenError: the address for HTTP is taken or not ours.
        ChannelBroken: a channel can never work (its token is refused).
    """
    stop = stop or _stop_signal()
    beat(START, app.clock())
    beat(founding_name(app.founding), app.clock())
    log.info(
        "starting",
        version=version(),
        channels=" ".join(app.channels),
        database=app.engine.dialect.name,
    )
    async with _taking_posts(app), _showing_pages(app):
        await _serve(app, stop, alive)


async def _serve(app: App, stop: asyncio.Event, alive: DeadMansSwitch | None) -> None:
    dispatcher = _dispatcher(app, await asyncio.to_thread(_begin_run, app))
    await dispatcher.catch_up()
    job_scheduler = JobScheduler(app, dispatcher, alive)
    job_scheduler.start()
    listening = [
        asyncio.create_task(_listen(app.engine, channel, dispatcher.receive))
        for channel in app.channels.values()
    ]
    tell_service_manager(Life.READY)
    try:
        await _until_stopped(stop, listening)
    finally:
        tell_service_manager(Life.STOPPING)
        for task in listening:
            task.cancel()
        await asyncio.gather(*listening, return_exceptions=True)
        await dispatcher.finish()
        await job_scheduler.stop()
        if app.weather is not None:
            app.weather.close()
        for channel in app.channels.values():
            await channel.close()
        await asyncio.to_thread(_end_run, app)


def _begin_run(app: App) -> datetime | None:
    try:
        return begin_run(app.engine, app.clock())
    except Exception:
        log.exception("the beginning could not be noted")
        return app.clock() + CAREFUL_FOR


def _end_run(app: App) -> None:
    try:
        end_run(app.engine, app.clock())
    except Exception:
        # The next start then takes it for a death, and is careful for nothing.
        log.exception("the end could not be noted")


async def _listen(engine: Engine, channel: Channel, receive: Receive) -> None:
    """Listen: alone where messages are fetched, beside the other workers where they are posted."""
    if isinstance(channel, WebChannel):
        await channel.listen(receive)
    else:
        await listen_alone(engine, channel, receive)


@asynccontextmanager
async def _taking_posts(app: App) -> AsyncIterator[None]:
    """Take what carriers post meanwhile, if there is an address for it and a carrier that posts."""
    channels = [each for each in app.channels.values() if isinstance(each, WebChannel)]
    if app.http is None or not channels:
        if app.http is not None:
            log.warning(
                "no carrier posts to YARDBELL_HTTP; YARDBELL_PAGES shows health and metrics"
            )
        yield
        return
    # Loaded only here, since most run without.
    from starlette.applications import Starlette

    from bot.web.server import listening

    routes = [route for channel in channels for route in channel.routes()]
    async with listening(Starlette(routes=routes), app.http):
        yield


@asynccontextmanager
async def _showing_pages(app: App) -> AsyncIterator[None]:
    """Show health and metrics meanwhile, if there is an address for them."""
    if app.pages is None:
        yield
        return
    from bot.web.app import pages_app
    from bot.web.server import listening

    async with listening(pages_app(app.engine, app.clock), app.pages, "YARDBELL_PAGES"):
        yield


def _dispatcher(app: App, careful_until: datetime | None) -> Dispatcher:
    def link(code: str) -> str | None:
        return invite_link(app.channels.get(TELEGRAM.name), code)

    handler = MessageHandler(app.zone, link, app.texting, app.founding, app.answer_limit)
    return Dispatcher(app, handler, careful_until)


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


def weather_of(settings: Settings) -> WeatherSource | None:
    """The source that is set up; None where weather is off."""
    if settings.weather.off:
        return None
    if settings.weather.file is not None:
        return CsvHours(settings.weather.file)
    key = settings.weather.key
    return OpenMeteo(settings.weather.url, key.get_secret_value() if key is not None else None)
