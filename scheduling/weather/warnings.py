"""What a yard's weather asks of its keeper on a day, beside the checks."""

from dataclasses import dataclass
from datetime import date

from scheduling.trade import table
from scheduling.weather.heat import ColonyHeat, HeatBand, colony_heat, heat_band
from scheduling.weather.yard_weather import YardWeather


@dataclass(frozen=True)
class Warnings:
    """What is to be said of the weather.

    Attributes:
        colonies: what the heat asks for at the colonies.
        keeper: how hard the heat is on the keeper.
        warmest_c: the day's highest temperature; None where it is not known.
        heat_index_f: the day's highest heat index; None where it is not known.
        flight_hours: hours fit for mating flights that day; None where they are not known.
        none_since: the last date that was measured, where that is long ago; else None.
    """

    colonies: ColonyHeat = ColonyHeat.NONE
    keeper: HeatBand = HeatBand.NONE
    warmest_c: float | None = None
    heat_index_f: float | None = None
    flight_hours: float | None = None
    none_since: date | None = None


NO_WARNINGS = Warnings()
"""Nothing is to be said, for nothing is known."""


def warnings_on(day: date, weather: YardWeather) -> Warnings:
    """Work out what is to be said of a yard's weather on a local date.

    The keeper's own word on the day takes the place of the hours counted.
    """
    known = weather.days.get(day)
    warmest = known.warmest_c if known is not None else None
    index = known.heat_index_f if known is not None else None
    return Warnings(
        colonies=colony_heat(warmest) if warmest is not None else ColonyHeat.NONE,
        keeper=heat_band(index) if index is not None else HeatBand.NONE,
        warmest_c=warmest,
        heat_index_f=index,
        flight_hours=None if day in weather.words else weather.flight_hours.get(day),
        none_since=_none_since(day, weather),
    )


def _none_since(day: date, weather: YardWeather) -> date | None:
    last = weather.measured_to
    if last is None or table.WEATHER_STALE.after(last) >= day:
        return None
    return last
