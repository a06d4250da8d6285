"""How many SMS segments a morning takes, through an invented season that is answered every day."""

import random
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta

from bot.channels.sms.segments import segments
from bot.conversation.work_out_morning import yard_days
from bot.reading.reader import read
from bot.reading.result import Finding
from bot.reading.situation import Situation, YardUnits
from bot.wording.check_names import CHECK_WORDS
from bot.wording.morning_message import SMS_SEGMENTS, morning_message
from deploy.benchmark.invented_crew import FIRST_DAY, SEASON_DAYS, YARDS, invented_crew
from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import Calendar, work_out
from scheduling.checks.check import Check
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import UnitName
from scheduling.visits import due_on

WELL = 0.8
"""The share of looks that find what was hoped for."""

_MEASURED = {CheckKind.FEED: ("fed {} 1 quart",), CheckKind.TRAP: ("trap {} 2 beetles",)}
"""Answers with an amount, as a keeper gives them."""

_BEGINS = frozenset({EntryKind.MADE_UP, EntryKind.CELL_PLACED, EntryKind.TRAP_SET})


@dataclass
class Season:
    """A crew's log as far as it was told, and the mornings that came of it.

    Attributes:
        log: what was told.
        lengths: the segments of each morning.
        cut: how many mornings left something to ``more``.
    """

    log: list[Entry]
    lengths: list[int] = field(default_factory=list)
    cut: int = 0


def segments_of_mornings(*sizes: int) -> None:
    """Print a table: crews of so many units, and the segments that their mornings take."""
    print(f"Segments of a morning by SMS, a season of {SEASON_DAYS} days in {YARDS} yards, "
          "all that is due answered each day\n")  # fmt: skip
    print(f"{'units':>6} {'mornings':>9} {'half':>5} {'most':>5} {'mean':>5} {'in more':>8}  each")
    for size in sizes:
        season = answered_season(size)
        lengths = sorted(season.lengths)
        count, mean = len(lengths), sum(lengths) / len(lengths)
        of_each = ", ".join(f"{n}: {many}" for n, many in sorted(Counter(lengths).items()))
        print(f"{size:>6} {count:>9} {lengths[count // 2]:>5} {lengths[-1]:>5} {mean:>5.1f} "
              f"{season.cut:>8}  {of_each}", flush=True)  # fmt: skip


def answered_season(size: int, days: int = SEASON_DAYS) -> Season:
    """Go through a season day by day: the morning by SMS, and what was found at each check."""
    chance = random.Random(size)  # noqa: S311 - invented, not secret
    every, weather = invented_crew(1, size)
    begins = [entry for entry in every if entry.kind in _BEGINS]
    units = _units_of(begins)
    season = Season([])
    for day in (FIRST_DAY + timedelta(days=number) for number in range(days)):
        season.log += [entry for entry in begins if entry.on == day]
        calendar = work_out(season.log, weather)
        today = yard_days(calendar, season.log, units, day, "ada", weather)
        message = morning_message(today, day, SMS_SEGMENTS)
        if message is not None:
            season.lengths.append(segments(message.text))
            season.cut += len(message.parts) > 1
        season.log += _answers(calendar, units, day, chance)
    return season


def _units_of(entries: Iterable[Entry]) -> Mapping[str, tuple[UnitName, ...]]:
    units: dict[str, set[UnitName]] = {}
    for entry in entries:
        if entry.place.unit is not None:
            units.setdefault(entry.place.yard, set()).add(entry.place.unit)
    return {yard: tuple(sorted(names)) for yard, names in sorted(units.items())}


def _answers(
    calendar: Calendar, units: Mapping[str, tuple[UnitName, ...]], day: date, chance: random.Random
) -> Iterator[Entry]:
    """Answer each check as its example does, read as the conversation reads it."""
    yards = tuple(YardUnits(yard, names) for yard, names in units.items())
    for due in due_on(calendar, day).due:
        check = due.check
        if check.place.unit is None:
            continue
        told = read(_reply(check, chance), _situation(check, yards, day))
        for number, finding in enumerate(told.findings):
            yield _entry(f"{check.place} {check.kind} {day} {number}", finding, day)


def _situation(check: Check, yards: tuple[YardUnits, ...], day: date) -> Situation:
    return Situation(day, yards, check.place.yard, lambda: {check.place: (check.kind,)})


def _reply(check: Check, chance: random.Random) -> str:
    outcomes = _MEASURED.get(check.kind) or CHECK_WORDS[check.kind].replies or ("",)
    hoped = len(outcomes) == 1 or chance.random() < WELL
    return outcomes[0 if hoped else 1].format(check.place.unit)


def _entry(uid: str, finding: Finding, day: date) -> Entry:
    at = datetime.combine(day, time(12), UTC)
    return Entry(uid, finding.place, finding.kind, finding.value, day, at, "ada")
