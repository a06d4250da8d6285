"""What the owner sets for the weather."""

from pathlib import Path

from pydantic import SecretStr

from bot.settings.validators import SubjectSettings, Switch, WebAddress


class WeatherSettings(SubjectSettings):
    """``YARDBELL_WEATHER_...``: where the yards' weather comes from."""

    off: Switch = False
    """Ask nobody for weather; the keepers' own words are all there is."""
    url: WebAddress = "https://api.open-meteo.com"
    """Address of the weather service, without its path."""
    key: SecretStr | None = None
    """The key of a paid account with the weather service."""
    file: Path | None = None
    """A CSV file of hours of weather, in place of the service."""
