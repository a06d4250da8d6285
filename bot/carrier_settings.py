"""What the owner sets for the carriers of texts and for e-mail."""

from decimal import Decimal
from pathlib import Path
from typing import Literal

from pydantic import Field, SecretStr, field_validator
from pydantic_settings import BaseSettings

from bot.web.address import parse_address

_ADDRESS = r"^https?://\S+$"


class CarrierSettings(BaseSettings):
    """The part of the settings that is about carriers; secrets stand here and nowhere else."""

    public_url: str | None = Field(default=None, pattern=_ADDRESS)
    """The address under which carriers reach our HTTP side, before the path."""
    sms_region: str | None = Field(default=None, pattern=r"^[A-Z]{2}$")
    """The land (ISO 3166) whose numbers come without a + before them."""
    sms_segment_price: Decimal | None = Field(default=None, ge=0)
    """What a segment costs, in whatever money the owner pays with."""

    twilio_account: str | None = Field(default=None, pattern=r"^AC[0-9a-fA-F]{32}$")
    """The account's sid; without it Twilio is off."""
    twilio_token: SecretStr | None = None
    """The account's token."""
    twilio_from: str | None = Field(default=None, pattern=r"^(\+[1-9]\d{6,14}|MG[0-9a-fA-F]{32})$")
    """Our number in full, or a messaging service's sid."""
    twilio_shared_key: SecretStr | None = None
    """The key of signatures with SHA-256, if the account was switched to them."""
    twilio_url: str = Field(default="https://api.twilio.com", pattern=_ADDRESS)
    """The address of the carrier's API."""

    phone_url: str | None = Field(default=None, pattern=_ADDRESS)
    """The address of a keeper's own phone; without it that is off."""
    phone_login: str = "sms"
    """The name that the phone's app shows."""
    phone_password: SecretStr | None = None
    """Its password."""
    phone_signing_key: SecretStr | None = None
    """The key that it signs its notices with."""

    modem_folder: Path | None = None
    """The folder with the folders of the modem's daemon; without it the modem is off."""

    smpp_host: str | None = None
    """The message centre's name or address; without it SMPP is off."""
    smpp_port: int = Field(default=2775, ge=1, le=65535)
    smpp_login: str | None = None
    smpp_password: SecretStr | None = None
    smpp_from: str | None = None
    """Our number in full, or a short code."""
    smpp_tls: bool = True
    """Whether the line is encrypted."""

    mail_host: str | None = None
    """The mail server that sends; without it e-mail is off."""
    mail_port: int = Field(default=587, ge=1, le=65535)
    mail_security: Literal["tls", "starttls", "none"] = "starttls"
    mail_login: str = ""
    mail_password: SecretStr | None = None
    mail_from: str | None = None
    """Our address."""
    mail_key: SecretStr | None = None
    """Sixteen or more random letters, by which answers are known."""
    mail_listen: str | None = None
    """Where the mail server hands answers in over LMTP, as HOST:PORT."""

    @field_validator("mail_listen")
    @classmethod
    def _can_be_handed_in(cls, written: str | None) -> str | None:
        if written is not None:
            parse_address(written)
        return written
