"""The carriers of texts and e-mail that are configured, made from the settings."""

import asyncio
from collections.abc import Callable, Collection, Iterator
from typing import TypeVar

from pydantic import SecretStr
from sqlalchemy import Engine

from bot.channels.channel import Channel
from bot.channels.delivered import note_report
from bot.channels.reports import DeliveryReport, Report
from bot.post.delivery import apply_report
from bot.settings.address import parse_address
from bot.settings.error import SettingsError
from bot.settings.settings import Settings
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
    if settings.mail.host is not None:
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
                apply_report(session, report, running)

    async def report(told: DeliveryReport) -> None:
        await asyncio.to_thread(keep, told)

    return report


class _Carrier:
    """A setting that switches a carrier on, and what makes its channel."""

    def __init__(
        self, subject: str, field: str, channel: Callable[[Settings, Engine, Report], Channel]
    ) -> None:
        self._subject, self._field = subject, field
        self.setting = f"YARDBELL_{subject}_{field}".upper()
        self.channel = channel

    def is_on(self, settings: Settings) -> bool:
        """Tell whether it is configured."""
        return getattr(getattr(settings, self._subject), self._field) is not None


# The libraries of each are loaded only where it is configured.
def _twilio(settings: Settings, _engine: Engine, report: Report) -> Channel:
    from bot.channels.twilio import TwilioAccount, TwilioChannel

    return TwilioChannel(
        TwilioAccount(
            sid=_needed(settings.twilio.account, "twilio_account"),
            token=_secret(settings.twilio.token, "twilio_token"),
            sender=_needed(settings.twilio.sender, "twilio_from"),
            public_url=reached(settings),
            shared_key=_or_empty(settings.twilio.shared_key),
            url=settings.twilio.url,
        ),
        report,
    )


def _phone(settings: Settings, _engine: Engine, report: Report) -> Channel:
    from bot.channels.phone import PhoneChannel, PhoneDevice

    return PhoneChannel(
        PhoneDevice(
            url=_needed(settings.phone.url, "phone_url"),
            login=settings.phone.login,
            password=_secret(settings.phone.password, "phone_password"),
            signing_key=_secret(settings.phone.signing_key, "phone_signing_key"),
            public_url=reached(settings),
            region=settings.sms.region,
        ),
        report,
    )


def _modem(settings: Settings, _engine: Engine, report: Report) -> Channel:
    from bot.channels.modem import ModemChannel, ModemFolders

    folder = _needed(settings.modem.folder, "modem_folder")
    return ModemChannel(ModemFolders(folder), settings.sms.region, report)


def _smpp(settings: Settings, engine: Engine, report: Report) -> Channel:
    from bot.channels.smpp import SmppAccount, SmppChannel
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
    return SmppChannel(account, DatabaseParts(engine), report)


def _mail(settings: Settings, _engine: Engine, report: Report) -> Channel:
    from bot.channels.mail.channel import MailChannel
    from bot.channels.mail.mail_account import MailAccount, Security

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
    return MailChannel(account, report)


_OF_TEXTS = (
    _Carrier("twilio", "account", _twilio),
    _Carrier("phone", "url", _phone),
    _Carrier("modem", "folder", _modem),
    _Carrier("smpp", "host", _smpp),
)
_MAIL = _Carrier("mail", "host", _mail)


def _running(settings: Settings, made: "Collection[_Carrier]") -> frozenset[str]:
    names = {"mail" if make is _MAIL else "sms" for make in made}
    return frozenset(names if settings.telegram.token is None else names | {"telegram"})


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
