"""Settings as they are written: what each may say, and where it is written.

A reader makes a value of what is written or raises ``ValueError`` with what would be right; it
never repeats what is written, which may be a secret in the wrong place.
"""

import os
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, fields
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from bot.surroundings import SettingsError
from bot.web.address import parse_address

PREFIX = "YARDBELL_"
ENV_FILE = Path(".env")

_ON = frozenset({"1", "on", "true", "yes", "t", "y"})
_OFF = frozenset({"0", "off", "false", "no", "f", "n"})
_READ = "read"

Reader = Callable[[str], object]


def setting(read: Reader = str, default: object = None) -> Any:
    """Make a field of the settings: how it is read, and what holds while it is not set."""
    return field(default=default, metadata={_READ: read})


def matching(pattern: str, meant: str) -> Reader:
    """Read a text of a form; ``meant`` says which form in words."""

    def read(written: str) -> str:
        if not re.fullmatch(pattern, written):
            raise ValueError(f"it is {meant}")
        return written

    return read


web_address = matching(r"https?://\S+", "an address that begins with http:// or https://")


def one_of(*words: str) -> Reader:
    """Read one of a few words."""
    *others, last = map(repr, words)
    return matching("|".join(words), f"{', '.join(others)} or {last}")


def number_between(least: int, most: int) -> Reader:
    """Read a whole number from ``least`` to ``most``."""

    def read(written: str) -> int:
        digits = written.strip()
        if not (digits.isascii() and digits.isdigit() and least <= int(digits) <= most):
            raise ValueError(f"it is a number from {least} to {most}")
        return int(digits)

    return read


def amount(written: str) -> Decimal:
    """Read an amount of money, nothing or more."""
    try:
        read = Decimal(written.strip())
    except InvalidOperation:
        read = Decimal("nan")
    if not read.is_finite() or read < 0:
        raise ValueError("it is an amount such as 0.0079")
    return read


def on_or_off(written: str) -> bool:
    """Read a switch."""
    said = written.strip().lower()
    if said not in _ON | _OFF:
        raise ValueError("it is 1 for on, or 0 for off")
    return said in _ON


def place_to_listen(written: str) -> str:
    """Read where to listen, as HOST:PORT."""
    parse_address(written)
    return written


def values_of(kind: type, written: Mapping[str, str]) -> dict[str, Any]:
    """Read the fields of a kind of settings, by their names; one that is empty is not set.

    Raises:
        SettingsError: one is wrong; what was written is never repeated in the message.

    """
    return dict(_values(kind, written))


def _values(kind: type, written: Mapping[str, str]) -> Iterator[tuple[str, object]]:
    for each in fields(kind):
        if text := written.get(each.name):
            try:
                yield each.name, each.metadata[_READ](text)
            except ValueError as error:
                name = f"{PREFIX}{each.name}".upper()
                raise SettingsError(f"{name} is not usable: {error}") from None


def written() -> dict[str, str]:
    """Give what is set, by the names of the fields; the environment goes before the file.

    Raises:
        SettingsError: the file is no text.

    """
    return {**_ours(_in_file()), **_ours(os.environ)}


def _in_file() -> Mapping[str, str | None]:
    if not ENV_FILE.is_file():
        return {}
    # Loaded only here, since most machines set the environment.
    from dotenv import dotenv_values

    try:
        return dotenv_values(ENV_FILE)
    except UnicodeDecodeError:
        raise SettingsError("the file .env is not UTF-8 text") from None


def _ours(named: Mapping[str, str | None]) -> dict[str, str]:
    return {
        name.upper().removeprefix(PREFIX).lower(): value
        for name, value in named.items()
        if value and name.upper().startswith(PREFIX)
    }
