"""All settings, by subject."""

from bot.settings.address import HttpAddress, parse_address
from bot.settings.mail import MailSettings
from bot.settings.paths import data_folder
from bot.settings.telegram import TelegramSettings
from bot.settings.texts import (
    ModemSettings,
    PhoneSettings,
    SmppSettings,
    TextSettings,
    TwilioSettings,
)
from bot.settings.validators import Listen, LogLevel, SubjectSettings, Switch, WebAddress
from bot.settings.weather_settings import WeatherSettings


class Settings(SubjectSettings):
    """What holds for the whole program, and the settings of each subject.

    A setting is written as ``YARDBELL_``, its subject if it has one, and its name, in capitals.
    """

    database: str | None = None
    """SQLAlchemy's URL of the database; without it, a SQLite file in the user's data folder."""
    http: Listen | None = None
    """Where to answer HTTP, as HOST:PORT or a port of this machine only; without it, nowhere."""
    public_url: WebAddress | None = None
    """The address under which carriers reach our HTTP side, before the path."""
    log_json: Switch = False
    """Write the log's lines as JSON."""
    log_level: LogLevel = "INFO"

    telegram: TelegramSettings = TelegramSettings()
    weather: WeatherSettings = WeatherSettings()
    sms: TextSettings = TextSettings()
    twilio: TwilioSettings = TwilioSettings()
    phone: PhoneSettings = PhoneSettings()
    modem: ModemSettings = ModemSettings()
    smpp: SmppSettings = SmppSettings()
    mail: MailSettings = MailSettings()

    @property
    def http_address(self) -> HttpAddress | None:
        """Where to answer HTTP; None for nowhere."""
        return None if self.http is None else parse_address(self.http)

    @property
    def database_url(self) -> str:
        """SQLAlchemy's URL of the database, with the default filled in."""
        return self.database or f"sqlite:///{data_folder() / 'yardbell.sqlite'}"
