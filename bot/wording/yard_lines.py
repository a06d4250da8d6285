"""The lines of one yard in a morning message, those on its weather among them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from bot.wording.days_and_numbers import day_words
from bot.wording.groups import ORDER, Detail, Group, YardDay, groups
from bot.wording.place_names import place_words
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check
from scheduling.places import Place, UnitName
from scheduling.weather.fit_hours import Unfit
from scheduling.weather.heat import ColonyHeat, HeatBand, fahrenheit
from scheduling.weather.yard_weather import Warnings

_LONGEST = 150
"""Characters of names in one line; a longer list goes on in another line."""


@dataclass(frozen=True)
class YardLine:
    """One line of words and the places it is about."""

    yard: str
    words: str
    places: tuple[Place, ...]


def yard_lines(yard_day: YardDay, day: date, detail: Detail) -> tuple[YardLine, ...]:
    """Say what is due (late first), what rests, then feed and traps."""
    if yard_day.taken_by is not None:
        return (YardLine(yard_day.yard, f"{yard_day.taken_by} has it today", ()),)
    said = groups(yard_day, day, detail)
    rest_rank = ORDER.index(CheckKind.REST)
    before = [group for group in said if group.late or ORDER.index(group.kind) < rest_rank]
    after = [group for group in said if group not in before]
    return (
        *_group_lines(before, yard_day),
        *rest_lines(yard_day, day, detail),
        *_group_lines(after, yard_day),
        *_waiting_lines(yard_day, day),
        *(YardLine(yard_day.yard, words, ()) for words in weather_words(yard_day, day, detail)),
    )


def _waiting_lines(yard_day: YardDay, day: date) -> list[YardLine]:
    """``Too cold today, so Thu: 4a-c 6b``."""
    found: dict[tuple[Unfit, date], list[Place]] = {}
    for item in sorted(yard_day.waiting, key=lambda item: item.until):
        found.setdefault((item.unfit, item.until), []).append(item.check.place)
    return [
        line
        for (unfit, until), places in found.items()
        for line in _named(
            yard_day.yard,
            f"{too_unfit(unfit)}, so {day_words(until, day)}:",
            tuple(dict.fromkeys(places)),
            yard_day.units,
            "",
        )
    ]


def rest_lines(yard_day: YardDay, day: date, detail: Detail = Detail.FULL) -> list[YardLine]:
    """``Leave alone 1a-c to Thu, 2 to Sat``; when room is short, only the first day to end."""
    ends: dict[date, list[Place]] = {}
    for rest in yard_day.rests:
        ends.setdefault(rest.by or date.max, []).append(rest.place)
    if not ends:
        return []
    places = tuple(dict.fromkeys(place for end in sorted(ends) for place in ends[end]))
    if detail is Detail.LEAST and len(ends) > 1:
        return _named(
            yard_day.yard, "Leave alone", places, yard_day.units, f" (first{_to(min(ends), day)})"
        )
    return _rests_by_end(ends, yard_day, day)


def _rests_by_end(ends: dict[date, list[Place]], yard_day: YardDay, day: date) -> list[YardLine]:
    label = "Leave alone"
    lines = [
        line
        for end in sorted(ends)
        for line in _named(yard_day.yard, label, tuple(ends[end]), yard_day.units, _to(end, day))
    ]
    together = ", ".join(
        [lines[0].words, *(line.words.removeprefix(f"{label} ") for line in lines[1:])]
    )
    if len(together) > _LONGEST:
        return lines
    return [YardLine(yard_day.yard, together, tuple(p for line in lines for p in line.places))]


def _to(end: date, day: date) -> str:
    return "" if end == date.max else f" to {day_words(end, day)}"


def _group_lines(said: Iterable[Group], yard_day: YardDay) -> list[YardLine]:
    return [line for group in said for line in group_lines(group, yard_day.yard, yard_day.units)]


def group_lines(group: Group, yard: str, units: Iterable[UnitName]) -> list[YardLine]:
    """``Look for eggs 4a-c (eggs due since Tue)``, begun with ``Late:`` where it is."""
    label = f"Late: {group.label}" if group.late else group.label[0].upper() + group.label[1:]
    why = f" ({group.why})" if group.why else ""
    return _named(yard, label, group.places, units, why)


def _named(
    yard: str, label: str, places: tuple[Place, ...], units: Iterable[UnitName], end: str
) -> list[YardLine]:
    """One line, or several of fewer places each where the names would be too long for one."""
    order = tuple(units)
    names = place_words(places, order)
    if len(names) <= _LONGEST or len(places) == 1:
        return [YardLine(yard, f"{label} {names}{end}", places)]
    half = len(places) // 2
    halves = (places[:half], places[half:])
    return [line for part in halves for line in _named(yard, label, part, order, end)]


def due_words(checks: Iterable[Check], units: Iterable[UnitName], yard: str, day: date) -> str:
    """Say checks of one yard in one run: ``look for eggs 4a-c; check food 1-3``."""
    said = groups(YardDay(yard, tuple(checks)), day, Detail.BARE)
    order = tuple(units)
    return "; ".join(f"{group.label} {place_words(group.places, order)}" for group in said)


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
    none = f"No weather since {day_words(said.none_since, day)}" if said.none_since else ""
    lines = [_keeper(said), _colonies(said), none]
    mates = any(rest.why.cause is Cause.MATURING_AND_MATING for rest in yard_day.rests)
    if detail <= Detail.WORK and mates:
        lines.insert(0, _flying(said))
    return [line for line in lines if line]


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


def _degrees(fahrenheit_degrees: float) -> str:
    celsius = (fahrenheit_degrees - 32) * 5 / 9
    return f"{round(fahrenheit_degrees)} F ({round(celsius)} C)"
