"""What a setting may say, where it is written, and that a wrong one is never repeated."""

import os
from decimal import Decimal
from pathlib import Path

import pytest

from bot.settings.founding import Founding
from bot.settings.load import load_settings, setting_names
from bot.settings.settings import Settings
from bot.settings.validators import SettingsError


@pytest.fixture(autouse=True)
def _in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in os.environ:
        if name.startswith("YARDBELL_"):
            monkeypatch.delenv(name)
    monkeypatch.setattr("bot.settings.load.CHECKOUT", tmp_path)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.chdir(tmp_path)


def test_what_is_not_set_is_as_usual(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("YARDBELL_LOG_LEVEL", "")
    monkeypatch.setenv("YARDBELL_MAIL_PORT", "")
    assert load_settings().model_dump() == Settings().model_dump()


def test_each_setting_is_read_as_what_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    told = {
        "WEATHER_OFF": "Yes",
        "WEATHER_FILE": "hours.csv",
        "SMPP_PORT": " 60 ",
        "SMS_SEGMENT_PRICE": "0.0079",
        "SMS_MONTHLY_SEGMENTS": "1000",
        "SMS_LANDS": "US CA",
        "CREWS_FOUNDED_BY": "nobody",
        "MAIL_SECURITY": "none",
        "TWILIO_FROM": "+12025550100",
        "TWILIO_SHARED_KEY": "k",
    }
    for name, value in told.items():
        monkeypatch.setenv(f"YARDBELL_{name}", value)
    settings = load_settings()
    assert (settings.weather.off, settings.weather.file) == (True, Path("hours.csv"))
    assert (settings.smpp.port, settings.mail.security) == (60, "none")
    assert settings.sms.segment_price == Decimal("0.0079")
    assert settings.sms.monthly_segments == 1000
    assert settings.sms.lands == "US CA"
    assert settings.crews.founded_by is Founding.NOBODY
    assert settings.twilio.sender == "+12025550100"
    assert settings.twilio.shared_key is not None
    assert settings.twilio.shared_key.get_secret_value() == "k"


@pytest.mark.parametrize("off", ["0", "off", "FALSE", "no", "f", "N", " 0 "])
def test_a_switch_is_switched_off(monkeypatch: pytest.MonkeyPatch, off: str) -> None:
    monkeypatch.setenv("YARDBELL_SMPP_TLS", off)
    assert load_settings().smpp.tls is False


@pytest.mark.parametrize("on", ["1", "on", "TRUE", "yes", "t", "Y", " 1 "])
def test_a_switch_is_switched_on(monkeypatch: pytest.MonkeyPatch, on: str) -> None:
    monkeypatch.setenv("YARDBELL_WEATHER_OFF", on)
    assert load_settings().weather.off is True


@pytest.mark.parametrize(
    ("name", "text", "right"),
    [
        ("WEATHER_OFF", "perhaps", "it is 1 for on, or 0 for off"),
        ("SMPP_PORT", "65536", "it is a number from 1 to 65535"),
        ("SMPP_PORT", "-5", "it is a number from 1 to 65535"),
        ("MAIL_PORT", "\u0665", "it is a number from 1 to 65535"),
        ("MAIL_PORT", "2_5", "it is a number from 1 to 65535"),
        ("MAIL_PORT", "25.0", "it is a number from 1 to 65535"),
        ("SMS_MONTHLY_SEGMENTS", "0", "it is a number from 1 to 10000000"),
        ("SMS_SEGMENT_PRICE", "-0.01", "it is an amount such as 0.0079"),
        ("SMS_SEGMENT_PRICE", "NaN", "it is an amount such as 0.0079"),
        ("SMS_SEGMENT_PRICE", "7 cents", "it is an amount such as 0.0079"),
        ("SMS_REGION", "US\n", "it is two capitals such as US"),
        ("KEEP_DAYS", "69", "it is a number of days from 70 to 3650"),
        ("KEEP_DAYS", "3651", "it is a number of days from 70 to 3650"),
        ("KEEP_DAYS", "for ever", "it is a number of days from 70 to 3650"),
        ("SMS_LANDS", "US,CA", "it is lands by two capitals each, such as US CA"),
        ("SMS_DAILY_INVITES", "-1", "it is a number from 0 to 100000"),
        ("SMS_DAILY_ANSWER_SEGMENTS", "0", "it is a number from 1 to 10000000"),
        ("CREWS_FOUNDED_BY", "everybody", "it is 'nobody', 'invited' or 'anybody'"),
        ("PAGES", "nowhere", "write it as HOST:PORT, for example 127.0.0.1:8080"),
        ("MAIL_SECURITY", "tlsnone", "it is 'tls', 'starttls' or 'none'"),
        ("LOG_LEVEL", "info", "it is 'DEBUG', 'INFO', 'WARNING' or 'ERROR'"),
        ("PHONE_URL", "phone.example", "it is an address that begins with http:// or https://"),
        ("TWILIO_ACCOUNT", "AC123456", "it is AC and 32 digits or letters from a to f"),
        ("TWILIO_FROM", "2025550100", "it is a number with + and country, or a sid"),
        ("HTTP", "nowhere", "write it as HOST:PORT, for example 127.0.0.1:8080"),
    ],
)
def test_a_wrong_one_is_told_what_would_be_right_and_not_repeated(
    monkeypatch: pytest.MonkeyPatch, name: str, text: str, right: str
) -> None:
    monkeypatch.setenv(f"YARDBELL_{name}", text)
    with pytest.raises(SettingsError) as refused:
        load_settings()
    assert str(refused.value) == f"YARDBELL_{name} is not usable: {right}"
    assert refused.value.__cause__ is None


def test_the_environment_goes_before_the_file(monkeypatch: pytest.MonkeyPatch) -> None:
    Path(".env").write_text(
        "YARDBELL_SMPP_PORT=2776\nYARDBELL_SMPP_HOST=a.example\n"
        "export YARDBELL_SMS_REGION='CA' # a land\nOTHER=1\n"
    )
    monkeypatch.setenv("YARDBELL_SMPP_PORT", "2777")
    monkeypatch.setenv("YARDBELL_SMS_REGION", "")
    settings = load_settings()
    assert (settings.smpp.port, settings.smpp.host) == (2777, "a.example")
    assert settings.sms.region == "CA"


def test_a_line_without_a_value_sets_nothing() -> None:
    Path(".env").write_text("YARDBELL_WEATHER_URL\nYARDBELL_TELEGRAM_TOKEN\nYARDBELL_DATABASE=\n")
    assert load_settings().model_dump() == Settings().model_dump()


def test_small_letters_do_as_well(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("yardbell_smpp_port", "2778")
    assert load_settings().smpp.port == 2778


@pytest.mark.parametrize(
    ("unknown", "nearest"),
    [
        ("YARDBELL_SMS_MONTHLY_SEGMENT", "YARDBELL_SMS_MONTHLY_SEGMENTS"),
        ("YARDBELL_TELEGRM_TOKEN", "YARDBELL_TELEGRAM_TOKEN"),
        ("YARDBELL_TELEGRAM_TOKN", "YARDBELL_TELEGRAM_TOKEN"),
        ("YARDBELL_TELEGRAM", "YARDBELL_TELEGRAM_URL"),
        ("YARDBELL_LOGLEVEL", "YARDBELL_LOG_LEVEL"),
        ("YARDBELL_TWILIO_SENDER", "YARDBELL_TWILIO_TOKEN"),
        ("YARDBELL_DATABSE", "YARDBELL_DATABASE"),
    ],
)
def test_an_unknown_name_is_refused_with_the_nearest(
    monkeypatch: pytest.MonkeyPatch, unknown: str, nearest: str
) -> None:
    right = f"{unknown} is no setting of Yardbell; the nearest is {nearest}"
    with monkeypatch.context() as set_here:
        set_here.setenv(unknown, "an-invented-secret")
        with pytest.raises(SettingsError) as refused:
            load_settings()
        assert str(refused.value) == right
    Path(".env").write_text(f"{unknown}=an-invented-secret\n")
    with pytest.raises(SettingsError) as refused:
        load_settings()
    assert str(refused.value) == right


def test_every_setting_can_be_written_by_its_name(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in setting_names():
        with monkeypatch.context() as set_here:
            set_here.setenv(name, "nothing-takes-this")
            try:
                changed = load_settings().model_dump() != Settings().model_dump()
            except SettingsError as error:
                changed = str(error).startswith(f"{name} is not usable: ")
        assert changed, name


def test_a_secret_is_not_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    secrets = [name for name in setting_names() if name.endswith(("_TOKEN", "_PASSWORD", "_KEY"))]
    assert len(secrets) == 9
    for name in secrets:
        monkeypatch.setenv(name, "an-invented-key")
    settings = load_settings()
    assert "invented" not in f"{settings!r} {settings} {settings.model_dump()}"
