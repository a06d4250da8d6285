"""A unit's story with what is ahead of it, and the lists of ready queens and failing units."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from bot.wording.check_names import stage_name, to_do
from bot.wording.days_and_numbers import day_count, day_words, full_day
from bot.wording.findings import finding_words
from bot.wording.groups import ORDER
from bot.wording.message import Message, pages
from bot.wording.plain_letters import to_gsm7
from bot.wording.reasons import reason
from bot.wording.yard_lines import YardLine
from scheduling.check_kinds import UPKEEP, CheckKind
from scheduling.checks.check import Check, expired
from scheduling.checks.colonies import BeesAhead, bees_ahead
from scheduling.checks.forecasts import QueenForecast
from scheduling.checks.queen_dates import QueenDates
from scheduling.checks.queen_looks import too_late_to_mate_well
from scheduling.colony.bees_enough import AnotherRound, LowPoint
from scheduling.entries import Entry
from scheduling.places import Place
from scheduling.units.state import Stage, UnitState
from scheduling.visits import ReadyQueen

_MOST_SEGMENTS = 3

_LOST = frozenset({Stage.WAITING, Stage.ENDED, Stage.DRONE_LAYER, Stage.LAYING_WORKERS})


def story(queen: QueenDates, checks: Iterable[Check], today: date) -> str:
    """Three lines: what the unit is and since when, what was last seen, what comes next.

    Of a queen that is looked at and does not lay yet, the second says how likely she still will
    and when to look again. A fourth tells what is ahead of its bees, where that is known.
    """
    checks, state = list(checks), queen.state
    hope = queen_odds_words(queen, _look_again(checks, today))
    bees = bees_words(bees_ahead(queen), today)
    lines = [
        f"{state.place}: {_now(state, today)}",
        f"Last: {_last(state.entries, today)}{f'; {hope}' if hope else ''}",
        f"Next: {_next(checks, today)}",
        *([f"Bees: {bees}"] if bees else []),
    ]
    return to_gsm7("\n".join(lines))


def queens_list(ready: Sequence[ReadyQueen], today: date) -> Message:
    """List the queens that may be taken, in the order given (longest laying first)."""
    if not ready:
        return Message(("No queen ready to take yet.",))
    lines = [
        YardLine(queen.place.yard, _laying_words(queen, today), (queen.place,)) for queen in ready
    ]
    return Message(pages("Ready to take, longest laying first", lines, "", _MOST_SEGMENTS))


def failing_list(checks: Iterable[Check], units: Mapping[Place, UnitState], today: date) -> Message:
    """List the units that go wrong, each with what to do, in the order given."""
    to_mend: dict[Place, list[Check]] = {}
    for check in checks:
        to_mend.setdefault(check.place, []).append(check)
    if not to_mend:
        return Message(("No unit is failing.",))
    lines = [
        YardLine(place.yard, _failing_words(units[place], found, today), (place,))
        for place, found in to_mend.items()
    ]
    return Message(pages("Failing", lines, "", _MOST_SEGMENTS))


def since(state: UnitState) -> date | None:
    """Give the local date from which the present stage counts, as far as it is known."""
    if state.stage in (Stage.LAYING, Stage.PROVEN):
        return state.eggs_on
    if state.stage is Stage.VIRGIN:
        return state.released_on or state.emergence_due or state.started_on
    if state.stage in _LOST:
        return state.lost_on or (state.entries[-1].on if state.entries else None)
    return state.started_on


def _now(state: UnitState, today: date) -> str:
    day = since(state)
    if day is None:
        return stage_name(state)
    if day > today:
        return f"{stage_name(state)} from {day_words(day, today)}"
    return f"{stage_name(state)}, day {(today - day).days} since {full_day(day)}"


def _last(entries: Sequence[Entry], today: date) -> str:
    if not entries:
        return "nothing noted yet"
    last = entries[-1]
    words = finding_words(last.kind, last.value, last.note)
    return f"{words}, {day_words(last.on, today)}, {last.person}"


def _next(checks: Sequence[Check], today: date) -> str:
    alone = _leave_alone(checks, today)
    ahead = (check for check in checks if check.best is not None and check.follows is None)
    check = _first([check for check in ahead if not expired(check, today)], today)
    if check is None:
        return alone or "nothing due"
    when = day_words(max(check.best or today, today), today)
    step = f"{to_do(check.kind, check.why)} {when} ({reason(check.why, today)})"
    return f"{alone}, {step}" if alone else step


def _look_again(checks: Sequence[Check], today: date) -> str:
    """Say when eggs are next looked for."""
    looks = [check.best for check in checks if check.kind in _FOR_EGGS and check.follows is None]
    days = [max(day, today) for day in looks if day is not None]
    return day_words(min(days), today) if days else ""


_FOR_EGGS = frozenset({CheckKind.LAYING, CheckKind.GIVE_UP})


def _first(checks: Sequence[Check], today: date) -> Check | None:
    """What is due already, else the next look for the queen, else the next upkeep."""
    now = [check for check in checks if check.best is not None and check.best <= today]
    looks = [check for check in checks if check.kind not in UPKEEP]
    return min(now or looks or checks, key=lambda each: _urgency(each, today), default=None)


def _urgency(check: Check, today: date) -> tuple[date, int]:
    """What is due already ranks by how much hangs on it, the rest by its day."""
    return max(check.best or date.max, today), ORDER.index(check.kind)


def _leave_alone(checks: Sequence[Check], today: date) -> str:
    ends = [
        check.by
        for check in checks
        if check.kind is CheckKind.REST and check.by and check.not_before <= today <= check.by
    ]
    return f"leave alone to {day_words(max(ends), today)}" if ends else ""


def _laying_words(queen: ReadyQueen, today: date) -> str:
    days = day_count(queen.days_laying)
    return f"{queen.place.unit} laying {days}, since {day_words(queen.eggs_on, today)}"


def _failing_words(state: UnitState, checks: Sequence[Check], today: date) -> str:
    day = since(state)
    when = "" if day is None or day > today else f" since {day_words(day, today)}"
    todo = ", ".join(f"{to_do(check.kind, check.why)}{_by(check, today)}" for check in checks)
    return f"{state.place.unit} {stage_name(state)}{when}: {todo}"


def _by(check: Check, today: date) -> str:
    return "" if check.by is None or check.by < today else f" by {day_words(check.by, today)}"


_OF = 10
"""Chances are told as so many in ten: they are known no closer."""


def queen_odds_words(queen: QueenDates, look_again: str = "") -> str:
    """Say ``no eggs at day 13, 5 days no flying weather: 7 in 10 she still lays, look again Thu``.

    The day is her age at the look. Nothing is said before she was due to lay. Of one looked at so
    late that fewer of her age mate well, that is said too.
    """
    looked, forecast, emerged = queen.last_look, queen.forecast, queen.state.emergence_due
    if looked is None or forecast is None or emerged is None:
        return ""
    seen = f"no eggs at day {(looked - emerged).days}"
    late = "fewer mate well so late" if too_late_to_mate_well(queen.state, looked) else ""
    again = f"look again {look_again}" if look_again else ""
    then = ", ".join(part for part in (_chance(forecast), late, again) if part)
    return f"{', '.join([seen, *_weather(forecast, looked)])}: {then}"


def _weather(forecast: QueenForecast, looked: date) -> list[str]:
    days = forecast.days_without_flying(looked)
    return [f"{day_count(days)} no flying weather"] if days else []


def _chance(forecast: QueenForecast) -> str:
    in_ten = round(_OF * forecast.still_lays)
    if in_ten == 0:
        return "hardly a chance she still lays"
    if in_ten == _OF:
        return "almost sure she still lays"
    return f"{in_ten} in {_OF} she still lays"


_ROUND = {
    AnotherRound.CELL: "worth another cell",
    AnotherRound.CELL_AND_BROOD: "worth another cell with a frame of brood",
    AnotherRound.COMBINE: "not worth another round, combine",
}

_NEAREST = 50
"""Bees are told to so many: they are known no closer."""


def bees_words(ahead: BeesAhead | None, today: date) -> str:
    """Say ``fewest about 900 Fri 4 Jun, too few from Wed, give brood by today``; nothing for None.

    A low point that is past is not told.
    """
    if ahead is None:
        return ""
    said = [_fewest(ahead.low, today), _brood(ahead, today), _workers(ahead, today)]
    if ahead.another_round is not None:
        said.append(_ROUND[ahead.another_round])
    return ", ".join(part for part in said if part)


def _fewest(low: LowPoint | None, today: date) -> str:
    if low is None or low.on < today:
        return ""
    return f"fewest about {round(low.bees / _NEAREST) * _NEAREST} {day_words(low.on, today)}"


def _brood(ahead: BeesAhead, today: date) -> str:
    if ahead.too_few_from is None or ahead.brood_by is None:
        return ""
    since = "since" if ahead.too_few_from < today else "from"
    few = f"too few {since} {day_words(ahead.too_few_from, today)}"
    return f"{few}, give brood by {day_words(max(ahead.brood_by, today), today)}"


def _workers(ahead: BeesAhead, today: date) -> str:
    likely = ahead.laying_workers_from
    if likely is None:
        return ""
    since = "since" if likely < today else "from"
    return f"laying workers likely {since} {day_words(likely, today)}"


def not_worked_out(place: Place) -> str:
    """Say of a unit that a rule failed on what its log says."""
    return f"{place}: I cannot work it out. Who runs Yardbell can find why: yardbell check"
