"""Words on the weather: what waits for it, heat, flying weather, and no weather at all."""

from datetime import date

from bot.wording.day_names import day_words
from bot.wording.groups import Detail, YardDay
from scheduling.checks.check import Cause
from scheduling.weather.heat import ColonyHeat, HeatBand, fahrenheit
from scheduling.weather.opening import Unfit
from scheduling.weather.warnings import Warnings

_TOO = {
    Unfit.COLD: "Too cold to open",
    Unfit.WINDY: "Too windy to open",
    Unfit.WET: "Too wet to open",
}


def too_unfit(unfit: Unfit) -> str:
    """``Too cold to open``."""
    return _TOO[unfit]


def weather_words(yard_day: YardDay, day: date, detail: Detail) -> list[str]:
    """Say what matters of a yard's weather; flying weather only where there is room."""
    said = yard_day.warnings
    lines = [_keeper(said), _colonies(said), _none_since(said, day)]
    if detail <= Detail.WORK and _waits_to_mate(yard_day):
        lines.insert(0, _flying(said))
    return [line for line in lines if line]


def _waits_to_mate(yard_day: YardDay) -> bool:
    return any(rest.why.cause is Cause.MATURING_AND_MATING for rest in yard_day.rests)


def _flying(said: Warnings) -> str:
    if said.flight_hours is None:
        return ""
    hours = round(said.flight_hours)
    return f"Flying weather {hours} h" if hours else "No flying weather"


def _keeper(said: Warnings) -> str:
    if said.keeper < HeatBand.EXTREME_CAUTION or said.heat_index_f is None:
        return ""
    felt = f"feels like {_degrees(said.heat_index_f)}"
    if said.keeper >= HeatBand.DANGER:
        return f"Dangerous heat, {felt}: at dawn or not at all, never alone"
    return f"Heat {felt}: go early, drink, rest in shade"


def _colonies(said: Warnings) -> str:
    if said.colonies is ColonyHeat.NONE or said.warmest_c is None:
        return ""
    wants = f"{_degrees(fahrenheit(said.warmest_c))}: shade, water, screened floors open"
    if said.colonies is ColonyHeat.MAY_ABSCOND:
        return f"{wants}; bees may leave their boxes"
    return wants


def _none_since(said: Warnings, day: date) -> str:
    return f"No weather since {day_words(said.none_since, day)}" if said.none_since else ""


def _degrees(fahrenheit_degrees: float) -> str:
    celsius = (fahrenheit_degrees - 32) * 5 / 9
    return f"{round(fahrenheit_degrees)} F ({round(celsius)} C)"
