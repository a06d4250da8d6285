"""Settings read from the environment and, after it, from the file ``.env``."""

from collections.abc import Iterable, Iterator

from pydantic import BaseModel, ValidationError
from pydantic_settings import (
    BaseSettings,
    EnvSettingsSource,
    PydanticBaseSettingsSource,
    SettingsConfigDict,
)

from bot.settings.settings import Settings
from bot.settings.validators import SettingsError

PREFIX = "YARDBELL_"
ENV_FILE = ".env"


class _WrittenSettings(BaseSettings, Settings):
    """The settings as they are written; an empty one counts as not set."""

    model_config = SettingsConfigDict(
        env_prefix=PREFIX,
        env_file=ENV_FILE,
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
    try:
        return _WrittenSettings()
    except ValidationError as error:
        first = error.errors(include_input=False, include_url=False)[0]
        name = PREFIX + "_".join(map(str, first["loc"])).upper()
        right = first["msg"].removeprefix("Value error, ")
        raise SettingsError(f"{name} is not usable: {right}") from None
    except UnicodeDecodeError:
        raise SettingsError(f"the file {ENV_FILE} is not UTF-8 text") from None


def setting_names(kind: type[BaseModel] = Settings, before: str = PREFIX) -> Iterator[str]:
    """Give the name of every setting, as the owner writes it."""
    for name, field in kind.model_fields.items():
        written = before + str(field.validation_alias or name).upper()
        if isinstance(field.annotation, type) and issubclass(field.annotation, BaseModel):
            yield from setting_names(field.annotation, f"{written}_")
        else:
            yield written


def _refuse_unknown(written: Iterable[str]) -> None:
    ours = {name.upper() for name in written if name.upper().startswith(PREFIX)}
    for unknown in sorted(ours.difference(setting_names())):
        # Loaded only here, since it tells of slips alone.
        from rapidfuzz.process import extractOne

        nearest, *_ = extractOne(unknown, list(setting_names()))
        raise SettingsError(f"{unknown} is no setting of Yardbell; the nearest is {nearest}")
