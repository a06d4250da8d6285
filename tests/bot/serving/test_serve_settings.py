"""A setting that cannot work is said at the start, in one line."""

import pytest
from pydantic import SecretStr
from sqlalchemy import Engine

from bot.channel_factory import NothingToServeError, channels_of
from bot.serving import invite_link
from bot.settings.load import load_settings
from bot.settings.settings import Settings, TelegramSettings
from bot.settings.validators import SettingsError


def no_database() -> Engine:
    raise AssertionError("the database was opened for nothing")


def test_an_address_of_the_carrier_that_is_none_is_refused(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("YARDBELL_TELEGRAM_URL", "localhost:8081")

    with pytest.raises(SettingsError, match=r"^YARDBELL_TELEGRAM_URL is not usable: ") as refused:
        load_settings()
    assert "\n" not in str(refused.value)


def test_without_a_channel_there_is_nothing_to_serve() -> None:
    with pytest.raises(NothingToServeError, match="set YARDBELL_TELEGRAM_TOKEN"):
        channels_of(Settings(), no_database)


def test_a_channel_that_is_not_connected_yet_has_no_links() -> None:
    channels = channels_of(
        Settings(telegram=TelegramSettings(token=SecretStr("123456:INVENTED"))), no_database
    )

    assert invite_link(channels["telegram"], "ABC234") is None
    assert invite_link(None, "ABC234") is None
