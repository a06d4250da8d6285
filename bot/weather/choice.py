"""Which source of weather the settings ask for."""

from bot.settings.settings import Settings
from bot.weather.csv_hours import CsvHours
from bot.weather.open_meteo import OpenMeteo
from bot.weather.source import WeatherSource


def weather_of(settings: Settings) -> WeatherSource | None:
    """The source that is set up; None where weather is off."""
    if settings.weather.off:
        return None
    if settings.weather.file is not None:
        return CsvHours(settings.weather.file)
    key = settings.weather.key
    return OpenMeteo(settings.weather.url, key.get_secret_value() if key is not None else None)
