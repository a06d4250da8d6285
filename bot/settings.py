"""What the owner of the machine sets, by environment or a ``.env`` file."""

from pathlib import Path
from typing import Literal

from pydantic import Field, SecretStr, ValidationError, field_validator
from pydantic_settings import SettingsConfigDict

from bot.carrier_settings import CarrierSettings
from bot.surroundings import SettingsError, data_folder
from bot.web.address import HttpAddress, parse_address


class Settings(CarrierSettings):
    """All settings, each read from ``YARDBELL_`` and its name in capitals."""

    model_config = SettingsConfigDict(
        env_prefix="YARDBELL_", env_file=".env", extra="ignore", env_ignore_empty=True
    )

    database: str | None = None
    """SQLAlchemy's URL of the database; without it, a SQLite file in the user's data folder."""
    telegram_token: SecretStr | None = None
    """The token of the Telegram bot; without it Telegram is off."""
    telegram_url: str | None = Field(default=None, pattern=r"^https?://\S+$")
    """Address of a Bot API server of one's own, without the "/bot" at its end."""
    weather_off: bool = False
    """Ask nobody for weather; the keepers' own words are all there is."""
    weather_url: str = Field(default="https://api.open-meteo.com", pattern=r"^https?://\S+$")
    """Address of the weather service, without its path."""
    weather_key: SecretStr | None = None
    """The key of a paid account with the weather service."""
    weather_file: Path | None = None
    """A CSV file of hours of weather, in place of the service."""
    http: str | None = None
    """Where to answer HTTP, as HOST:PORT or a port of this machine only; without it, nowhere."""
    log_json: bool = False
    """Write the log's lines as JSON."""
    log_level: Literal["DEBUG", "INFO", "WARNING", "ERROR"] = "INFO"

    @field_validator("http")
    @classmethod
    def _can_be_listened_on(cls, written: str | None) -> str | None:
        if written is not None:
            parse_address(written)
        return written

    @property
    def http_address(self) -> HttpAddress | None:
        """Where to answer HTTP; None for nowhere."""
        return None if self.http is None else parse_address(self.http)

    @property
    def database_url(self) -> str:
        """SQLAlchemy's URL of the database, with the default filled in."""
        return self.database or f"sqlite:///{data_folder() / 'yardbell.sqlite'}"


def load_settings() -> Settings:
    """Read the settings.

    Raises:
        SettingsError: one is wrong; secrets are never repeated in the message.

    """
    try:
        return Settings()
    except ValidationError as error:
        first = error.errors(include_input=False, include_url=False)[0]
        name = "YARDBELL_" + "_".join(str(part) for part in first["loc"]).upper()
        raise SettingsError(f"{name} is not usable: {first['msg']}") from None
    except UnicodeDecodeError:
        raise SettingsError("the file .env is not UTF-8 text") from None
