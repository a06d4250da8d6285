"""Settings read from the environment and, after it, from one file of settings."""

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from pydantic import BaseModel, ValidationError
from pydantic_settings import (
    BaseSettings,
    EnvSettingsSource,
    PydanticBaseSettingsSource,
    SettingsConfigDict,
)

from bot.settings.settings import Settings, data_place
from bot.settings.validators import SettingsError

PREFIX = "YARDBELL_"
FILE_SETTING = f"{PREFIX}ENV_FILE"
"""The one setting that no file can hold: which file of settings is read."""

CHECKOUT = Path(__file__).resolve().parents[2]
ENV_FILE = ".env"


def settings_file() -> Path | None:
    """The file that settings are read from: the one named, or that of data folder or checkout.

    Never that of the folder one stands in: whoever put a file there would be sent the bot's token.

    Raises:
        SettingsError: the one named is not there.
    """
    if named := os.environ.get(FILE_SETTING):
        if not Path(named).exists():
            raise SettingsError(f"{FILE_SETTING} is not usable: there is no such file")
        return Path(named).absolute()
    files = (folder / ENV_FILE for folder in (data_place(), CHECKOUT))
    return next((file for file in files if os.access(file, os.R_OK)), None)


def passed_over() -> bool:
    """Tell whether a file of settings lies in this folder, as it was once read, and is not read."""
    here, read = Path(ENV_FILE), settings_file()
    return here.is_file() and (read is None or not here.samefile(read))


class _WrittenSettings(BaseSettings, Settings):
    """The settings as they are written; an empty one counts as not set."""

    model_config = SettingsConfigDict(
        env_prefix=PREFIX,
        env_file_encoding="utf-8",
        env_ignore_empty=True,
        env_nested_delimiter="_",
        env_nested_max_split=1,
        dotenv_filtering="match_prefix",
    )

    @classmethod
    def settings_customise_sources(
        cls,
        settings_cls: type[BaseSettings],
        init_settings: PydanticBaseSettingsSource,
        env_settings: PydanticBaseSettingsSource,
        dotenv_settings: PydanticBaseSettingsSource,
        file_secret_settings: PydanticBaseSettingsSource,
    ) -> tuple[PydanticBaseSettingsSource, ...]:
        """Read the environment before the file, both only if every name in them is known."""
        del settings_cls, init_settings, file_secret_settings
        for source in (env_settings, dotenv_settings):
            assert isinstance(source, EnvSettingsSource)  # noqa: S101 - what the library documents
            # A line of the file without "=" sets nothing.
            source.env_vars = {name: text for name, text in source.env_vars.items() if text}
            _refuse_unknown(source.env_vars)
        return env_settings, dotenv_settings


def load_settings() -> Settings:
    """Read the settings from where they are written.

    Raises:
        SettingsError: one is wrong or unknown; what was written is never repeated.
    """
    file = settings_file()
    try:
        return _WrittenSettings(_env_file=file)  # type: ignore[call-arg]  # the library's own
    except ValidationError as error:
        first = error.errors(include_input=False, include_url=False)[0]
        name = PREFIX + "_".join(map(str, first["loc"])).upper()
        right = first["msg"].removeprefix("Value error, ")
        raise SettingsError(f"{name} is not usable: {right}") from None
    except UnicodeDecodeError:
        raise SettingsError(f"the file {file} is not UTF-8 text") from None


def setting_names(kind: type[BaseModel] = Settings, before: str = PREFIX) -> Iterator[str]:
    """Give the name of every setting, as the owner writes it."""
    for name, field in kind.model_fields.items():
        written = before + str(field.validation_alias or name).upper()
        if isinstance(field.annotation, type) and issubclass(field.annotation, BaseModel):
            yield from setting_names(field.annotation, f"{written}_")
        else:
            yield written


def _refuse_unknown(written: Iterable[str]) -> None:
    ours = {name.upper() for name in written if name.upper().startswith(PREFIX)} - {FILE_SETTING}
    for unknown in sorted(ours.difference(setting_names())):
        # Loaded only here, since it tells of slips alone.
        from rapidfuzz.process import extractOne

        nearest, *_ = extractOne(unknown, list(setting_names()))
        raise SettingsError(f"{unknown} is no setting of Yardbell; the nearest is {nearest}")
