"""What the owner of the machine sets, by environment or a ``.env`` file."""

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from bot.carrier_settings import CarrierSettings
from bot.secret import Secret
from bot.surroundings import data_folder
from bot.web.address import HttpAddress, parse_address
from bot.written_settings import (
    on_or_off,
    one_of,
    place_to_listen,
    setting,
    values_of,
    web_address,
    written,
)


@dataclass(frozen=True, kw_only=True)
class Settings(CarrierSettings):
    """All settings, each read from ``YARDBELL_`` and its name in capitals."""

    database: str | None = setting()
    """SQLAlchemy's URL of the database; without it, a SQLite file in the user's data folder."""
    telegram_token: Secret | None = setting(Secret)
    """The token of the Telegram bot; without it Telegram is off."""
    telegram_url: str | None = setting(web_address)
    """Address of a Bot API server of one's own, without the "/bot" at its end."""
    telegram_webhook: bool = setting(on_or_off, default=False)
    """Let Telegram post to our HTTP side, in place of fetching from it."""
    weather_off: bool = setting(on_or_off, default=False)
    """Ask nobody for weather; the keepers' own words are all there is."""
    weather_url: str = setting(web_address, "https://api.open-meteo.com")
    """Address of the weather service, without its path."""
    weather_key: Secret | None = setting(Secret)
    """The key of a paid account with the weather service."""
    weather_file: Path | None = setting(Path)
    """A CSV file of hours of weather, in place of the service."""
    http: str | None = setting(place_to_listen)
    """Where to answer HTTP, as HOST:PORT or a port of this machine only; without it, nowhere."""
    log_json: bool = setting(on_or_off, default=False)
    """Write the log's lines as JSON."""
    log_level: Literal["DEBUG", "INFO", "WARNING", "ERROR"] = setting(
        one_of("DEBUG", "INFO", "WARNING", "ERROR"), "INFO"
    )

    @property
    def http_address(self) -> HttpAddress | None:
        """Where to answer HTTP; None for nowhere."""
        return None if self.http is None else parse_address(self.http)

    @property
    def database_url(self) -> str:
        """SQLAlchemy's URL of the database, with the default filled in."""
        return self.database or f"sqlite:///{data_folder() / 'yardbell.sqlite'}"


def load_settings() -> Settings:
    """Read the settings from where they are written.

    Raises:
        SettingsError: one is wrong; secrets are never repeated in the message.

    """
    return Settings(**values_of(Settings, written()))
