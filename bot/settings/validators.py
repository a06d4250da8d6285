"""What a setting may say: validators of pydantic, each with its own words for what would be right.

None repeats what is written, which may be a secret in the wrong place.
"""

import re
from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    ValidatorFunctionWrapHandler,
    WrapValidator,
)

from bot.settings.address import parse_address


class SettingsError(Exception):
    """A setting is missing or wrong; the message is one line that names it."""


class SubjectSettings(BaseModel):
    """The settings of one subject, a value that does not change."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", hide_input_in_errors=True, validate_by_name=True
    )


def meant(right: str) -> WrapValidator:
    """Say in our words what would be right, in place of the library's."""

    def read(written: Any, handler: ValidatorFunctionWrapHandler) -> Any:
        try:
            return handler(written)
        except ValueError:
            raise ValueError(f"it is {right}") from None

    return WrapValidator(read)


def _stripped(written: Any) -> Any:
    return written.strip() if isinstance(written, str) else written


def _only_digits(written: Any) -> Any:
    """Refuse other ways to write a whole number, such as 1_000 or 5.0."""
    if isinstance(written, str) and not re.fullmatch("[0-9]+", written.strip()):
        raise ValueError("not digits")
    return written


def _listens(written: str) -> str:
    parse_address(written)
    return written


WebAddress = Annotated[
    str,
    StringConstraints(pattern=r"^https?://\S+$"),
    meant("an address that begins with http:// or https://"),
]

Switch = Annotated[bool, BeforeValidator(_stripped), meant("1 for on, or 0 for off")]

Port = Annotated[
    int, Field(ge=1, le=65535), BeforeValidator(_only_digits), meant("a number from 1 to 65535")
]

Segments = Annotated[
    int,
    Field(ge=1, le=10_000_000),
    BeforeValidator(_only_digits),
    meant("a number from 1 to 10000000"),
]
"""A number of segments of SMS."""

KeepDays = Annotated[
    int,
    Field(ge=70, le=3650),
    BeforeValidator(_only_digits),
    meant("a number of days from 70 to 3650"),
]
"""For how long what is done is kept: longer than the last month's texts are counted and a button
that was tapped is known."""

DailyCount = Annotated[
    int, Field(ge=0, le=100_000), BeforeValidator(_only_digits), meant("a number from 0 to 100000")
]
"""How often something may be done in a day; 0 for never."""

Lands = Annotated[
    str,
    StringConstraints(pattern=r"^[A-Z]{2}( [A-Z]{2})*$"),
    meant("lands by two capitals each, such as US CA"),
]
"""Lands (ISO 3166) with a space between them."""

Amount = Annotated[Decimal, Field(ge=0), meant("an amount such as 0.0079")]
"""An amount of money, in whatever money the owner pays with."""

Listen = Annotated[str, AfterValidator(_listens)]
"""Where to listen, as HOST:PORT."""

LogLevel = Annotated[
    Literal["DEBUG", "INFO", "WARNING", "ERROR"], meant("'DEBUG', 'INFO', 'WARNING' or 'ERROR'")
]

MailSecurity = Annotated[Literal["tls", "starttls", "none"], meant("'tls', 'starttls' or 'none'")]

ChatNumber = Annotated[
    str, StringConstraints(pattern="^-?[0-9]{1,19}$"), meant("the number of a chat")
]

MailAddress = Annotated[
    str,
    StringConstraints(pattern=r"^[^@\s]+@[^@\s]+$"),
    meant("an address such as ann@yards.example"),
]

Minutes = Annotated[
    int, Field(ge=1, le=1440), BeforeValidator(_only_digits), meant("a number from 1 to 1440")
]
