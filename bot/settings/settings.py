"""All settings, by subject."""

from pathlib import Path
from typing import Annotated

from pydantic import Field, SecretStr, StringConstraints

from bot.settings.address import HttpAddress, parse_address
from bot.settings.founding import Founding
from bot.settings.validators import (
    Amount,
    ChatNumber,
    DailyCount,
    KeepDays,
    Lands,
    Listen,
    LogLevel,
    MailAddress,
    MailSecurity,
    Minutes,
    Port,
    Segments,
    SettingsError,
    SubjectSettings,
    Switch,
    WebAddress,
    meant,
)

_Land = Annotated[str, StringConstraints(pattern="^[A-Z]{2}$"), meant("two capitals such as US")]
_Sid = Annotated[
    str,
    StringConstraints(pattern="^AC[0-9a-fA-F]{32}$"),
    meant("AC and 32 digits or letters from a to f"),
]
_NumberOrSid = Annotated[
    str,
    StringConstraints(pattern=r"^(\+[1-9][0-9]{6,14}|MG[0-9a-fA-F]{32})$"),
    meant("a number with + and country, or a sid"),
]


class CrewSettings(SubjectSettings):
    """``YARDBELL_CREWS_...``: the crews of this machine."""

    founded_by: Annotated[Founding, meant("'nobody', 'invited' or 'anybody'")] = Founding.INVITED
    """Who may found a crew; ``yardbell chat`` at the terminal always may."""


class TextSettings(SubjectSettings):
    """``YARDBELL_SMS_...``: texts over whichever carrier."""

    region: _Land | None = None
    """The land (ISO 3166) whose numbers come without a + before them."""
    lands: Lands | None = None
    """The lands whose numbers may be invited by text; without it that of ``region`` alone."""
    daily_invites: DailyCount = 20
    """How many numbers may be invited by text within a day, by all crews together."""
    crew_daily_invites: DailyCount = 5
    """How many of them one crew may invite."""
    segment_price: Amount | None = None
    """What a segment costs, in whatever money the owner pays with."""
    monthly_segments: Segments = 3000
    """How many segments a month may take; at it only mornings go by text."""
    daily_answer_segments: Segments = 40
    """How many segments of answers one number may have in a day; then its texts are noted only."""


class TwilioSettings(SubjectSettings):
    """``YARDBELL_TWILIO_...``: an account with a hosted carrier."""

    account: _Sid | None = None
    """The account's sid; without it Twilio is off."""
    token: SecretStr | None = None
    """The account's token."""
    sender: _NumberOrSid | None = Field(default=None, validation_alias="from")
    """Our number in full, or a messaging service's sid."""
    shared_key: SecretStr | None = None
    """The key of signatures with SHA-256, if the account was switched to them."""
    url: WebAddress = "https://api.twilio.com"
    """The address of the carrier's API."""


class PhoneSettings(SubjectSettings):
    """``YARDBELL_PHONE_...``: a keeper's own phone."""

    url: WebAddress | None = None
    """The phone's address; without it that is off."""
    login: str = "sms"
    """The name that the phone's app shows."""
    password: SecretStr | None = None
    """Its password."""
    signing_key: SecretStr | None = None
    """The key that it signs its notices with."""


class ModemSettings(SubjectSettings):
    """``YARDBELL_MODEM_...``: a modem through its daemon."""

    folder: Path | None = None
    """The folder with the folders of the modem's daemon; without it the modem is off."""


class SmppSettings(SubjectSettings):
    """``YARDBELL_SMPP_...``: a message centre."""

    host: str | None = None
    """The message centre's name or address; without it SMPP is off."""
    port: Port = 2775
    login: str | None = None
    password: SecretStr | None = None
    sender: str | None = Field(default=None, validation_alias="from")
    """Our number in full, or a short code."""
    tls: Switch = True
    """Whether the line is encrypted."""


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


class TelegramSettings(SubjectSettings):
    """``YARDBELL_TELEGRAM_...``: the bot."""

    token: SecretStr | None = None
    """The bot's token; without it Telegram is off."""
    url: WebAddress | None = None
    """Address of a Bot API server of one's own, without the "/bot" at its end."""
    webhook: Switch = False
    """Let Telegram post to our HTTP side, in place of fetching from it."""


class MailSettings(SubjectSettings):
    """``YARDBELL_MAIL_...``: the mail servers that send and that hand answers in."""

    host: str | None = None
    """The mail server that sends; without it e-mail is off."""
    port: Port = 587
    security: MailSecurity = "starttls"
    login: str = ""
    password: SecretStr | None = None
    sender: str | None = Field(default=None, validation_alias="from")
    """Our address."""
    key: SecretStr | None = None
    """Sixteen or more random letters, by which answers are known."""
    listen: Listen | None = None
    """Where the mail server hands answers in over LMTP, as HOST:PORT."""


class OperatorSettings(SubjectSettings):
    """``YARDBELL_OPERATOR_...``: where whoever runs the machine is told of what they must mend."""

    chat: ChatNumber | None = None
    """Their chat with the Telegram bot."""
    mail: MailAddress | None = None
    """Their address of e-mail."""


class AliveSettings(SubjectSettings):
    """``YARDBELL_ALIVE_...``: a dead man's switch, which somebody else's service keeps."""

    url: WebAddress | None = None
    """The address that is asked for while all is well."""
    mail: MailAddress | None = None
    """The address that gets an e-mail while all is well."""
    minutes: Minutes = 5
    """How often."""


def data_place() -> Path:
    """Where the user's data folder for Yardbell is, or would be."""
    # Loaded only here, since who runs the program for long names database and file of settings.
    import platformdirs

    return platformdirs.user_data_path("yardbell", appauthor=False)


def data_folder() -> Path:
    """The user's data folder for Yardbell, made if it is not there.

    Raises:
        SettingsError: it cannot be made.
    """
    folder = data_place()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise SettingsError(f"the data folder cannot be made: {error}") from None
    return folder


class Settings(SubjectSettings):
    """What holds for the whole program, and the settings of each subject.

    A setting is written as ``YARDBELL_``, its subject if it has one, and its name, in capitals.
    """

    database: str | None = None
    """SQLAlchemy's URL of the database; without it, a SQLite file in the user's data folder."""
    http: Listen | None = None
    """Where carriers post to, as HOST:PORT or a port of this machine only; without it, nowhere."""
    pages: Listen | None = None
    """Where health and metrics are shown, which no carrier need reach; without it, nowhere."""
    public_url: WebAddress | None = None
    """The address under which carriers reach our HTTP side, before the path."""
    keep_days: KeepDays = 90
    """For how many days what is done is kept (messages out, reports, what was set aside); the log
    is kept for good."""
    log_json: Switch = False
    """Write the log's lines as JSON."""
    log_level: LogLevel = "INFO"

    crews: CrewSettings = CrewSettings()
    telegram: TelegramSettings = TelegramSettings()
    weather: WeatherSettings = WeatherSettings()
    sms: TextSettings = TextSettings()
    twilio: TwilioSettings = TwilioSettings()
    phone: PhoneSettings = PhoneSettings()
    modem: ModemSettings = ModemSettings()
    smpp: SmppSettings = SmppSettings()
    mail: MailSettings = MailSettings()
    operator: OperatorSettings = OperatorSettings()
    alive: AliveSettings = AliveSettings()

    @property
    def http_address(self) -> HttpAddress | None:
        """Where carriers post to; None for nowhere."""
        return None if self.http is None else parse_address(self.http)

    @property
    def pages_address(self) -> HttpAddress | None:
        """Where health and metrics are shown; None for nowhere."""
        return None if self.pages is None else parse_address(self.pages)

    @property
    def database_url(self) -> str:
        """SQLAlchemy's URL of the database, with the default filled in."""
        return self.database or f"sqlite:///{data_folder() / 'yardbell.sqlite'}"
