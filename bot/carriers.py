"""The carriers of texts and e-mail that are configured, made from the settings."""

import asyncio
from collections.abc import Callable, Collection, Iterator
from typing import TypeVar

from sqlalchemy import Engine

from bot.channels.channel import Channel
from bot.channels.delivered import note_report
from bot.channels.reports import DeliveryReport, Report
from bot.post.delivery import heed
from bot.secret import Secret
from bot.settings import Settings
from bot.surroundings import SettingsError
from bot.web.address import parse_address
from scheduling.records.engine import writing

T = TypeVar("T")

OpenEngine = Callable[[], Engine]


def carriers_of(settings: Settings, engine: OpenEngine) -> Iterator[Channel]:
    """Make the carriers that are configured.

    Raises:
        SettingsError: a setting is missing, or there are two carriers of texts.

    """
    made = [make for make in _OF_TEXTS if make.is_on(settings)]
    if len(made) > 1:
        names = " and ".join(make.setting for make in made)
        raise SettingsError(f"texts go over one carrier; set only one of {names}")
    if settings.mail_host is not None:
        made.append(_MAIL)
    for make in made:
        opened = engine()
        yield make.channel(settings, opened, report_to(opened, _running(settings, made)))


def report_to(engine: Engine, running: Collection[str] = ()) -> Report:
    """Make what keeps reports in the database and does what they ask for.

    Args:
        engine: the database.
        running: names of the channels that run, whose addresses go before others.

    """

    def keep(report: DeliveryReport) -> None:
        with writing(engine) as session:
            if note_report(session, report):
                heed(session, report, running)

    async def report(told: DeliveryReport) -> None:
        await asyncio.to_thread(keep, told)

    return report


class _Carrier:
    """A setting that switches a carrier on, and what makes its channel."""

    def __init__(self, field: str, channel: Callable[[Settings, Engine, Report], Channel]) -> None:
        self._field = field
        self.setting = f"YARDBELL_{field.upper()}"
        self.channel = channel

    def is_on(self, settings: Settings) -> bool:
        """Tell whether it is configured."""
        return getattr(settings, self._field) is not None


# The libraries of each are loaded only where it is configured.
def _twilio(settings: Settings, _engine: Engine, report: Report) -> Channel:
    from bot.channels.twilio import TwilioAccount, TwilioChannel

    return TwilioChannel(
        TwilioAccount(
            sid=_needed(settings.twilio_account, "twilio_account"),
            token=_secret(settings.twilio_token, "twilio_token"),
            sender=_needed(settings.twilio_from, "twilio_from"),
            public_url=reached(settings),
            shared_key=_or_empty(settings.twilio_shared_key),
            url=settings.twilio_url,
        ),
        report,
    )


def _phone(settings: Settings, _engine: Engine, report: Report) -> Channel:
    from bot.channels.phone import PhoneChannel, PhoneDevice

    return PhoneChannel(
        PhoneDevice(
            url=_needed(settings.phone_url, "phone_url"),
            login=settings.phone_login,
            password=_secret(settings.phone_password, "phone_password"),
            signing_key=_secret(settings.phone_signing_key, "phone_signing_key"),
            public_url=reached(settings),
            region=settings.sms_region,
        ),
        report,
    )


def _modem(settings: Settings, _engine: Engine, report: Report) -> Channel:
    from bot.channels.modem import ModemChannel, ModemFolders

    folder = _needed(settings.modem_folder, "modem_folder")
    return ModemChannel(ModemFolders(folder), settings.sms_region, report)


def _smpp(settings: Settings, engine: Engine, report: Report) -> Channel:
    from bot.channels.smpp import SmppAccount, SmppChannel
    from bot.channels.sms.part_store import DatabaseParts

    account = SmppAccount(
        host=_needed(settings.smpp_host, "smpp_host"),
        port=settings.smpp_port,
        login=_needed(settings.smpp_login, "smpp_login"),
        password=_secret(settings.smpp_password, "smpp_password"),
        sender=_needed(settings.smpp_from, "smpp_from"),
        tls=settings.smpp_tls,
        region=settings.sms_region,
    )
    return SmppChannel(account, DatabaseParts(engine), report)


def _mail(settings: Settings, _engine: Engine, report: Report) -> Channel:
    from bot.channels.mail import MailAccount, MailChannel
    from bot.channels.mail.account import Security

    listen = None if settings.mail_listen is None else parse_address(settings.mail_listen)
    account = MailAccount(
        host=_needed(settings.mail_host, "mail_host"),
        port=settings.mail_port,
        sender=_needed(settings.mail_from, "mail_from"),
        key=_secret(settings.mail_key, "mail_key"),
        login=settings.mail_login,
        password=_or_empty(settings.mail_password),
        security=Security(settings.mail_security),
        listen=None if listen is None else (listen.host, listen.port),
    )
    return MailChannel(account, report)


_OF_TEXTS = (
    _Carrier("twilio_account", _twilio),
    _Carrier("phone_url", _phone),
    _Carrier("modem_folder", _modem),
    _Carrier("smpp_host", _smpp),
)
_MAIL = _Carrier("mail_host", _mail)


def _running(settings: Settings, made: "Collection[_Carrier]") -> frozenset[str]:
    names = {"mail" if make is _MAIL else "sms" for make in made}
    return frozenset(names if settings.telegram_token is None else names | {"telegram"})


def _needed(value: T | None, field: str) -> T:
    if value is None:
        raise SettingsError(f"YARDBELL_{field.upper()} is not set, and this carrier needs it")
    return value


def _secret(value: Secret | None, field: str) -> str:
    return _needed(value, field).reveal()


def _or_empty(value: Secret | None) -> str:
    return "" if value is None else value.reveal()


def reached(settings: Settings) -> str:
    """Where a carrier's notices come to; without our HTTP side they would come to nobody.

    Raises:
        SettingsError: it is not set.

    """
    _needed(settings.http, "http")
    return _needed(settings.public_url, "public_url")
