"""Each carrier is switched on by its settings, and says in one line what is missing."""

import os
from pathlib import Path
from unittest import mock

import pytest
from sqlalchemy import Engine

from bot.channel_factory import channels_of
from bot.channels.mail.channel import MailChannel
from bot.channels.modem.channel import ModemChannel
from bot.channels.phone.channel import PhoneChannel
from bot.channels.smpp.channel import SmppChannel
from bot.channels.twilio.channel import TwilioChannel
from bot.settings.load import load_settings
from bot.settings.settings import Settings
from bot.settings.validators import SettingsError
from scheduling.records.engine import open_engine

SECRET = "a-secret-that-nobody-may-read"  # noqa: S105 - invented

TWILIO = {
    "twilio_account": "AC" + "0" * 32,
    "twilio_token": SECRET,
    "twilio_from": "+12025550100",
    "public_url": "https://yards.example",
    "http": "127.0.0.1:8080",
}
PHONE = {
    "phone_url": "http://192.168.1.10:8080",
    "phone_password": SECRET,
    "phone_signing_key": SECRET,
    "public_url": "https://192.168.1.20",
    "http": "127.0.0.1:8080",
    "sms_region": "US",
}
MODEM = {"modem_folder": "/var/spool/gammu"}
SMPP = {
    "smpp_host": "centre.example",
    "smpp_login": "yardbell",
    "smpp_password": SECRET,
    "smpp_from": "+12025550100",
}
MAIL = {"mail_host": "mail.example", "mail_from": "bees@club.example", "mail_key": SECRET}


@pytest.fixture(autouse=True)
def _in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def records(tmp_path: Path) -> Engine:
    return open_engine(f"sqlite:///{tmp_path}/empty.sqlite")


def settings(**given: str) -> Settings:
    named = {f"YARDBELL_{name}".upper(): value for name, value in given.items()}
    with mock.patch.dict(os.environ, named):
        return load_settings()


@pytest.mark.parametrize(
    ("given", "kind"),
    [
        (TWILIO, TwilioChannel),
        (PHONE, PhoneChannel),
        (MODEM, ModemChannel),
        (SMPP, SmppChannel),
    ],
)
def test_a_carrier_of_texts_is_switched_on_by_its_settings(
    records: Engine, given: dict[str, str], kind: type
) -> None:
    channels = channels_of(settings(**given), lambda: records)
    assert list(channels) == ["sms"]
    assert isinstance(channels["sms"], kind)


def test_texts_mail_and_telegram_go_together(records: Engine) -> None:
    given = settings(**MODEM, **MAIL, telegram_token="123456:INVENTED")  # noqa: S106
    channels = channels_of(given, lambda: records)
    assert list(channels) == ["telegram", "sms", "mail"]
    assert isinstance(channels["mail"], MailChannel)


def test_two_carriers_of_texts_are_one_too_many(records: Engine) -> None:
    with pytest.raises(SettingsError, match="YARDBELL_MODEM_FOLDER and YARDBELL_SMPP_HOST"):
        channels_of(settings(**MODEM, **SMPP), lambda: records)


@pytest.mark.parametrize("given", [TWILIO, PHONE, SMPP, MAIL])
def test_what_is_missing_is_named_and_no_secret_is(records: Engine, given: dict[str, str]) -> None:
    switch = next(iter(given))
    optional = {switch, "sms_region"}
    for missing in set(given) - optional:
        rest = {name: value for name, value in given.items() if name != missing}
        with pytest.raises(SettingsError, match=f"^YARDBELL_{missing.upper()} is not set") as said:
            channels_of(settings(**rest), lambda: records)
        assert SECRET not in str(said.value)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("YARDBELL_TWILIO_ACCOUNT", "me"),
        ("YARDBELL_TWILIO_FROM", "2025550100"),
        ("YARDBELL_PUBLIC_URL", "yards.example"),
        ("YARDBELL_SMS_REGION", "usa"),
        ("YARDBELL_SMPP_PORT", "0"),
        ("YARDBELL_MAIL_SECURITY", "perhaps"),
        ("YARDBELL_MAIL_LISTEN", "here"),
    ],
)
def test_a_setting_that_cannot_work_is_said_in_one_line(
    monkeypatch: pytest.MonkeyPatch, name: str, value: str
) -> None:
    monkeypatch.setenv(name, value)
    with pytest.raises(SettingsError, match=f"^{name} is not usable: ") as refused:
        load_settings()
    assert "\n" not in str(refused.value)


def test_settings_show_no_secret() -> None:
    given = settings(**{**TWILIO, **PHONE, **SMPP, **MAIL, "twilio_shared_key": SECRET})
    assert SECRET not in repr(given)
    assert SECRET not in str(given.model_dump()) + str(given)
