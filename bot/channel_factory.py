"""The channel factory: every channel that is configured, made from the settings."""

import asyncio
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from datetime import timedelta
from typing import TypeVar

from pydantic import SecretStr
from sqlalchemy import Engine

from bot.channels.channel import Channel
from bot.channels.reports import DeliveryReport, Report, unheard
from bot.channels.traits import MAIL, SMS, TELEGRAM, ChannelTraits
from bot.delivery.delivery_reports import apply_report, note_report
from bot.jobs.dead_mans_switch import DeadMansSwitch
from bot.settings.address import parse_address
from bot.settings.settings import Settings
from bot.settings.validators import SettingsError
from bot.wording.help import MENU
from scheduling.records.engine import writing

T = TypeVar("T")

OpenEngine = Callable[[], Engine]


class NothingToServeError(Exception):
    """No channel is configured; the message says which setting is missing."""


def channels_of(settings: Settings, engine: OpenEngine) -> Mapping[str, Channel]:
    """Make the channels that are configured, by name.

    Args:
        settings: what the owner set.
        engine: opens the database, for carriers that keep something in it.

    Raises:
        NothingToServeError: none is.
        SettingsError: a setting is missing, or there are two carriers of texts.
    """
    on = [factory for factory in _FACTORIES if factory.is_on(settings)]
    if not on:
        raise NothingToServeError(
            "no channel is configured; set YARDBELL_TELEGRAM_TOKEN to your bot's token, "
            "or the settings of a carrier of texts or e-mail"
        )
    carriers = [factory.setting for factory in on if factory.traits is SMS]
    if len(carriers) > 1:
        names = " and ".join(carriers)
        raise SettingsError(f"texts go over one carrier; set only one of {names}")
    running = frozenset(factory.traits.name for factory in on)
    return {
        factory.traits.name: factory.make(settings, _Database(engine, running)) for factory in on
    }


@dataclass(frozen=True)
class _Database:
    """What a carrier keeps something in, opened by the first that needs it."""

    open: OpenEngine
    running: Collection[str]

    def report(self) -> Report:
        """Give what takes the carrier's reports."""
        return report_to(self.open(), self.running)


def report_to(engine: Engine, running: Collection[str] = ()) -> Report:
    """Make what keeps reports in the database and does what they ask for.

    Args:
        engine: the database.
        running: names of the channels that run, whose addresses go before others.
    """

    def keep(report: DeliveryReport) -> None:
        with writing(engine) as session:
            if note_report(session, report):
                apply_report(session, report, running)

    async def report(told: DeliveryReport) -> None:
        await asyncio.to_thread(keep, told)

    return report


class _NoDatabase:
    """Keeps nothing, for a single message while the database may be what is broken."""

    def report(self) -> Report:
        """Give what takes the carrier's reports."""
        return unheard


def operator_channels(settings: Settings) -> Mapping[str, Channel]:
    """Make the channels that the operator is told over, by the operator's address there.

    Raises:
        NothingToServeError: none is set.
        SettingsError: the channel itself is not.
    """
    operator, none = settings.operator, _NoDatabase()
    wanted = ((operator.chat, _telegram), (operator.mail, _mail))
    channels = {address: make(settings, none) for address, make in wanted if address is not None}
    if not channels:
        raise NothingToServeError(
            "nobody is told; set YARDBELL_OPERATOR_CHAT or YARDBELL_OPERATOR_MAIL"
        )
    return channels


def dead_mans_switch_of(settings: Settings) -> DeadMansSwitch | None:
    """Make the dead man's switch, if an address for it is set.

    Raises:
        SettingsError: e-mail itself is not.
    """
    alive = settings.alive
    if alive.url is None and alive.mail is None:
        return None
    return DeadMansSwitch(
        every=timedelta(minutes=alive.minutes),
        url=alive.url,
        mail=None if alive.mail is None else _mail(settings, _NoDatabase()),
        mail_to=alive.mail or "",
    )


@dataclass(frozen=True)
class _Factory:
    """A setting that switches a channel on, and what makes it; its traits say which it is.

    Attributes:
        subject: the settings' subject.
        field: the setting in it that is there only where the channel is wanted.
        traits: those of the channel.
        make: makes it.
    """

    subject: str
    field: str
    traits: ChannelTraits
    make: Callable[[Settings, _Database], Channel]

    @property
    def setting(self) -> str:
        """The name of the setting as its owner writes it."""
        return f"YARDBELL_{self.subject}_{self.field}".upper()

    def is_on(self, settings: Settings) -> bool:
        """Tell whether it is configured."""
        return getattr(getattr(settings, self.subject), self.field) is not None


# The libraries of each are loaded only where it is configured.
def _telegram(settings: Settings, _database: _Database | _NoDatabase) -> Channel:
    token, url = _secret(settings.telegram.token, "telegram_token"), settings.telegram.url
    if settings.telegram.webhook:
        from bot.channels.telegram.webhook import TelegramWebhookChannel

        return TelegramWebhookChannel(token, reached(settings), url, commands=MENU)
    from bot.channels.telegram.channel import TelegramChannel

    return TelegramChannel(token, url, commands=MENU)


def _twilio(settings: Settings, database: _Database) -> Channel:
    from bot.channels.twilio.channel import TwilioChannel
    from bot.channels.twilio.twilio_account import TwilioAccount

    return TwilioChannel(
        TwilioAccount(
            sid=_needed(settings.twilio.account, "twilio_account"),
            token=_secret(settings.twilio.token, "twilio_token"),
            sender=_needed(settings.twilio.sender, "twilio_from"),
            public_url=reached(settings),
            shared_key=_or_empty(settings.twilio.shared_key),
            url=settings.twilio.url,
        ),
        database.report(),
    )


def _phone(settings: Settings, database: _Database) -> Channel:
    from bot.channels.phone.channel import PhoneChannel
    from bot.channels.phone.device import PhoneDevice

    return PhoneChannel(
        PhoneDevice(
            url=_needed(settings.phone.url, "phone_url"),
            login=settings.phone.login,
            password=_secret(settings.phone.password, "phone_password"),
            signing_key=_secret(settings.phone.signing_key, "phone_signing_key"),
            public_url=reached(settings),
            region=settings.sms.region,
        ),
        database.report(),
    )


def _modem(settings: Settings, database: _Database) -> Channel:
    from bot.channels.modem.channel import ModemChannel
    from bot.channels.modem.folders import ModemFolders

    folder = _needed(settings.modem.folder, "modem_folder")
    return ModemChannel(ModemFolders(folder), settings.sms.region, database.report())


def _smpp(settings: Settings, database: _Database) -> Channel:
    from bot.channels.smpp.channel import SmppChannel
    from bot.channels.smpp.link import SmppAccount
    from bot.channels.sms.concat_store import DatabaseParts

    account = SmppAccount(
        host=_needed(settings.smpp.host, "smpp_host"),
        port=settings.smpp.port,
        login=_needed(settings.smpp.login, "smpp_login"),
        password=_secret(settings.smpp.password, "smpp_password"),
        sender=_needed(settings.smpp.sender, "smpp_from"),
        tls=settings.smpp.tls,
        region=settings.sms.region,
    )
    return SmppChannel(account, DatabaseParts(database.open()), database.report())


def _mail(settings: Settings, database: _Database | _NoDatabase) -> Channel:
    from bot.channels.mail.channel import MailChannel
    from bot.channels.mail.mail_message import MailAccount, Security

    listen = None if settings.mail.listen is None else parse_address(settings.mail.listen)
    account = MailAccount(
        host=_needed(settings.mail.host, "mail_host"),
        port=settings.mail.port,
        sender=_needed(settings.mail.sender, "mail_from"),
        key=_secret(settings.mail.key, "mail_key"),
        login=settings.mail.login,
        password=_or_empty(settings.mail.password),
        security=Security(settings.mail.security),
        listen=None if listen is None else (listen.host, listen.port),
    )
    return MailChannel(account, database.report())


_FACTORIES = (
    _Factory("telegram", "token", TELEGRAM, _telegram),
    _Factory("twilio", "account", SMS, _twilio),
    _Factory("phone", "url", SMS, _phone),
    _Factory("modem", "folder", SMS, _modem),
    _Factory("smpp", "host", SMS, _smpp),
    _Factory("mail", "host", MAIL, _mail),
)


def _needed(value: T | None, field: str) -> T:
    if value is None:
        raise SettingsError(f"YARDBELL_{field.upper()} is not set, and this carrier needs it")
    return value


def _secret(value: SecretStr | None, field: str) -> str:
    return _needed(value, field).get_secret_value()


def _or_empty(value: SecretStr | None) -> str:
    return "" if value is None else value.get_secret_value()


def reached(settings: Settings) -> str:
    """Where a carrier's notices come to; without our HTTP side they would come to nobody.

    Raises:
        SettingsError: it is not set.
    """
    _needed(settings.http, "http")
    return _needed(settings.public_url, "public_url")
