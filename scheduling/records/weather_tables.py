"""The tables of the weather: hours kept for each yard, days made of them, and when to ask again.

They are a copy of what a source said; emptying them loses nothing that cannot be asked again.
"""

from datetime import date, datetime

from sqlalchemy import Float, ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from scheduling.records.tables import Base
from scheduling.weather.day import figures_version


class WeatherHourRow(Base):
    """One hour at one yard; what is not known is empty."""

    __tablename__ = "weather_hour"

    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), primary_key=True)
    at: Mapped[datetime] = mapped_column(primary_key=True)
    temperature_c: Mapped[float | None] = mapped_column(Float)
    wind_kmh: Mapped[float | None] = mapped_column(Float)
    rain_mm: Mapped[float | None] = mapped_column(Float)
    cloud_share: Mapped[float | None] = mapped_column(Float)
    sunshine_minutes: Mapped[float | None] = mapped_column(Float)
    humidity_percent: Mapped[float | None] = mapped_column(Float)
    measured: Mapped[bool]
    """It had gone by when it was asked for; a forecast had not."""


class WeatherDayRow(Base):
    """One local date at one yard, made of its hours; what is not known is empty."""

    __tablename__ = "weather_day"

    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), primary_key=True)
    day: Mapped[date] = mapped_column(primary_key=True)
    flight_hours: Mapped[float | None] = mapped_column(Float)
    opening_hours: Mapped[float | None] = mapped_column(Float)
    unfit: Mapped[str | None] = mapped_column(String(10))
    """What forbids opening a unit, from the closed list of reasons."""
    warmest_c: Mapped[float | None] = mapped_column(Float)
    mean_c: Mapped[float | None] = mapped_column(Float)
    heat_index_f: Mapped[float | None] = mapped_column(Float)
    measured: Mapped[bool]
    """All its hours had gone by when they were asked for."""


class WeatherAskedRow(Base):
    """When a yard's weather was asked for, and where; every yard with a place has a row."""

    __tablename__ = "weather_asked"

    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), primary_key=True)
    latitude: Mapped[float] = mapped_column(Float)
    longitude: Mapped[float] = mapped_column(Float)
    answered_at: Mapped[datetime | None]
    failures: Mapped[int]
    """How many times in a row there was no answer."""
    next_at: Mapped[datetime] = mapped_column(index=True)
    figures: Mapped[str] = mapped_column(
        String(16), index=True, default=figures_version, server_default=""
    )
    """The version of the figures that all its days were made with; empty for another one."""
