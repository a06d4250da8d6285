"""What the owner sets for text messages and for each carrier of them."""

from pathlib import Path
from typing import Annotated

from pydantic import Field, SecretStr, StringConstraints

from bot.settings.validators import (
    Amount,
    Port,
    Segments,
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


class TextSettings(SubjectSettings):
    """``YARDBELL_SMS_...``: texts over whichever carrier."""

    region: _Land | None = None
    """The land (ISO 3166) whose numbers come without a + before them."""
    segment_price: Amount | None = None
    """What a segment costs, in whatever money the owner pays with."""
    monthly_segments: Segments | None = None
    """How many segments a month may take; at it only mornings go by text."""


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
