"""What the owner sets for the carriers of texts and for e-mail."""

from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Literal

from bot.secret import Secret
from bot.written_settings import (
    amount,
    matching,
    number_between,
    on_or_off,
    one_of,
    place_to_listen,
    setting,
    web_address,
)

_port = number_between(1, 65535)


@dataclass(frozen=True, kw_only=True)
class CarrierSettings:
    """The part of the settings that is about carriers; secrets stand here and nowhere else."""

    public_url: str | None = setting(web_address)
    """The address under which carriers reach our HTTP side, before the path."""
    sms_region: str | None = setting(matching("[A-Z]{2}", "two capitals such as US"))
    """The land (ISO 3166) whose numbers come without a + before them."""
    sms_segment_price: Decimal | None = setting(amount)
    """What a segment costs, in whatever money the owner pays with."""
    sms_monthly_segments: int | None = setting(number_between(1, 10_000_000))
    """How many segments a month may take; at it only mornings go by text."""

    twilio_account: str | None = setting(
        matching("AC[0-9a-fA-F]{32}", "AC and 32 digits or letters from a to f")
    )
    """The account's sid; without it Twilio is off."""
    twilio_token: Secret | None = setting(Secret)
    """The account's token."""
    twilio_from: str | None = setting(
        matching(r"\+[1-9][0-9]{6,14}|MG[0-9a-fA-F]{32}", "a number with + and country, or a sid")
    )
    """Our number in full, or a messaging service's sid."""
    twilio_shared_key: Secret | None = setting(Secret)
    """The key of signatures with SHA-256, if the account was switched to them."""
    twilio_url: str = setting(web_address, "https://api.twilio.com")
    """The address of the carrier's API."""

    phone_url: str | None = setting(web_address)
    """The address of a keeper's own phone; without it that is off."""
    phone_login: str = setting(default="sms")
    """The name that the phone's app shows."""
    phone_password: Secret | None = setting(Secret)
    """Its password."""
    phone_signing_key: Secret | None = setting(Secret)
    """The key that it signs its notices with."""

    modem_folder: Path | None = setting(Path)
    """The folder with the folders of the modem's daemon; without it the modem is off."""

    smpp_host: str | None = setting()
    """The message centre's name or address; without it SMPP is off."""
    smpp_port: int = setting(_port, 2775)
    smpp_login: str | None = setting()
    smpp_password: Secret | None = setting(Secret)
    smpp_from: str | None = setting()
    """Our number in full, or a short code."""
    smpp_tls: bool = setting(on_or_off, default=True)
    """Whether the line is encrypted."""

    mail_host: str | None = setting()
    """The mail server that sends; without it e-mail is off."""
    mail_port: int = setting(_port, 587)
    mail_security: Literal["tls", "starttls", "none"] = setting(
        one_of("tls", "starttls", "none"), "starttls"
    )
    mail_login: str = setting(default="")
    mail_password: Secret | None = setting(Secret)
    mail_from: str | None = setting()
    """Our address."""
    mail_key: Secret | None = setting(Secret)
    """Sixteen or more random letters, by which answers are known."""
    mail_listen: str | None = setting(place_to_listen)
    """Where the mail server hands answers in over LMTP, as HOST:PORT."""
