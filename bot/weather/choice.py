"""Which source of weather the settings ask for."""

from bot.settings import Settings
from bot.weather.csv_hours import CsvHours
from bot.weather.open_meteo import OpenMeteo
from bot.weather.source import WeatherSource


def weather_of(settings: Settings) -> WeatherSource | None:
    """The source that is set up; None where weather is off."""
    if settings.weather_off:
        return None
    if settings.weather_file is not None:
        return CsvHours(settings.weather_file)
    key = settings.weather_key
    return OpenMeteo(settings.weather_url, key.reveal() if key is not None else None)
