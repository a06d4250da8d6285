"""The parts of a running program, as its composition root makes them."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime

from sqlalchemy import Engine

from bot.channels.channel import Channel
from bot.delivery.sender import Clock
from bot.delivery.sms_budget import SmsBudget
from bot.settings.address import HttpAddress
from bot.weather.source import WeatherSource


def _now() -> datetime:
    return datetime.now(UTC)


@dataclass(frozen=True)
class App:
    """All parts of a running program.

    Attributes:
        engine: the database, with its newest schema.
        channels: the channels by name.
        zone: the time zone a new crew starts with.
        weather: gives the yards' weather, and is closed at the end; None for none.
        http: where to answer HTTP; None for nowhere.
        clock: gives the present instant.
        region: the land (ISO 3166) whose phone numbers people write without a +.
        sms_budget: how many segments of SMS a month has; None for no end of them.
    """

    engine: Engine
    channels: Mapping[str, Channel]
    zone: str = "UTC"
    weather: WeatherSource | None = None
    http: HttpAddress | None = None
    clock: Clock = _now
    region: str | None = None
    sms_budget: SmsBudget | None = None
