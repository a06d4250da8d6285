"""What the owner of the machine sets, by environment or a ``.env`` file."""

from pathlib import Path

import platformdirs
from pydantic import Field, SecretStr, ValidationError
from pydantic_settings import BaseSettings, SettingsConfigDict


class SettingsError(Exception):
    """A setting is missing or wrong; the message is one line that names it."""


class Settings(BaseSettings):
    """All settings, each read from ``YARDBELL_`` and its name in capitals."""

    model_config = SettingsConfigDict(
        env_prefix="YARDBELL_", env_file=".env", extra="ignore", env_ignore_empty=True
    )

    database: str = Field(default_factory=lambda: f"sqlite:///{data_folder() / 'yardbell.sqlite'}")
    """SQLAlchemy's URL of the database."""
    telegram_token: SecretStr | None = None
    """The token of the Telegram bot; without it Telegram is off."""
    telegram_url: str | None = None
    """Address of a Bot API server of one's own, without the "/bot" at its end."""
    log_level: str = Field(default="INFO", pattern="^(DEBUG|INFO|WARNING|ERROR)$")


def data_folder() -> Path:
    """The user's data folder for Yardbell, made if it is not there."""
    return platformdirs.user_data_path("yardbell", appauthor=False, ensure_exists=True)


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
