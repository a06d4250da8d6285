"""The status command: how the program stands, in words for a person or for a machine."""

import importlib
import json
import zoneinfo
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from itertools import groupby
from pathlib import Path
from zoneinfo import ZoneInfo

import click

from bot.command.call import Call
from bot.command.database import shown_address
from bot.command.options import json_option, pass_call
from bot.command.screen import show
from bot.command.whose import nobody_yet
from bot.delivery.rules import OPEN
from bot.monitoring import FOUNDING, START, running_name, tick_name
from bot.version import version
from bot.web.program_status import DueNext, Status, YardAsked, status_of
from bot.web.unreached import Unreached
from scheduling.records.engine import reading
from scheduling.records.migrate import newest_version

_YARDS_SHOWN = 10
_PEOPLE_SHOWN = 20
_ALIVE = timedelta(minutes=1)
"""A program that runs has ticked within this time."""

_BEFORE_ALL = datetime.min.replace(tzinfo=UTC)

_SIGNS_OF_LIFE = (START, tick_name(""), running_name(""))
"""How the names of the beats begin that only a running program writes."""


@dataclass(frozen=True)
class TextsPaid:
    """What the owner set for texts: the price of a segment of SMS, and the most in a month."""

    price: Decimal | None = None
    most: int | None = None


_FREE = TextsPaid()


def is_running(status: Status) -> bool:
    """Whether a program runs on this database, as far as its heartbeats tell."""
    seen = _last_seen(status)
    return seen is not None and status.now - seen <= _ALIVE


def _last_seen(status: Status) -> datetime | None:
    signs = (at for name, at in status.beats.items() if name.startswith(_SIGNS_OF_LIFE))
    return max(signs, default=None)


def for_person(
    status: Status, zones: str, schema: str, database: str, paid: TextsPaid = _FREE
) -> Iterator[str]:
    """Give the lines that a person reads; ``paid`` is what the owner set for texts.

    Args:
        status: how the program stands.
        zones: the release of the time zones.
        schema: the newest schema.
        database: the address that was looked at, without its password.
        paid: what the owner set for texts.
    """
    yield f"running    {_running(status)}"
    yield f"database   {database}, schema {schema}"
    yield f"version    {version()}"
    yield f"people     {status.people}{_overdue(status)}"
    yield f"new crews  {_founding(status)}"
    for due in status.due_next:
        yield f"  next     {_due(due, status.now)}"
    waits = {str(state): status.outbox.get(state, 0) for state in OPEN}
    yield f"out        {_counts(waits)}{_quiet(status)}{_oldest(status)}"
    ended = {state: many for state, many in status.outbox.items() if state not in OPEN}
    yield f"  in 24 h  {_counts(ended)}"
    for each in status.unreached[:_PEOPLE_SHOWN]:
        yield f"  not to   {_unreached(each, status.now)}"
    yield f"in         {_counts(status.inbox)}"
    for kind, title in (("poll", "last poll"), ("tick", "last tick"), ("sent", "last sent")):
        yield f"{title:<10} {_beats(status, kind)}"
    for channel, since in status.silent.items():
        yield f"SILENT     nothing gets through over {channel} since {_ago(since, status.now)}"
    yield from _texts(status, paid)
    yield f"weather    {_weather(status)}"
    yield f"time zones {zones}"


def for_machine(
    status: Status, zones: str, schema: str, database: str, paid: TextsPaid = _FREE
) -> dict[str, object]:
    """Give plain values; instants are in UTC, as 2027-05-12T06:30:00Z, and a cost is text."""
    return {
        "now": _iso(status.now),
        "running": is_running(status),
        "version": version(),
        "database": database.partition(":")[0].partition("+")[0],
        "address": database,
        "schema": schema,
        "time_zones": zones,
        "people": status.people,
        "crews_founded_by": founded_by(status),
        "founding_codes": status.founding_codes,
        "wrong_codes": status.wrong_codes,
        "overdue": status.overdue,
        "due_next": [{"person": due.number, "at": _iso(due.at)} for due in status.due_next],
        "outbox": dict(status.outbox),
        "waiting_for_quiet_hours": status.quiet,
        "unreached": [
            {
                "person": each.number or None,
                "channel": each.channel,
                "since": _iso(each.since),
                "why": each.why,
            }
            for each in status.unreached
        ],
        "oldest_waiting": _iso(status.oldest_waiting),
        "inbox": dict(status.inbox),
        "beats": {name: _iso(at) for name, at in sorted(status.beats.items())},
        "silent": {channel: _iso(since) for channel, since in status.silent.items()},
        "texts": [
            {
                "person": sent.number or None,
                "month": f"{sent.month:%Y-%m}",
                "segments": sent.segments,
                "cost": None if paid.price is None else str(sent.segments * paid.price),
            }
            for sent in status.texts
        ],
        "texts_this_month": {"used": status.texts_used, "most": paid.most},
        "weather": [
            {
                "crew": yard.crew,
                "yard": yard.yard,
                "answered_at": _iso(yard.answered_at),
                "failures": yard.failures,
            }
            for yard in status.yards
        ],
    }


def founded_by(status: Status) -> str | None:
    """Say who may found a crew, as the program was started last; None if it never was."""
    at = {name: at for name, at in status.beats.items() if name.startswith(f"{FOUNDING}:")}
    return max(at, key=lambda name: at[name]).partition(":")[2] if at else None


def _founding(status: Status) -> str:
    by = founded_by(status) or "unknown till a program runs"
    wrong = f"; {status.wrong_codes} wrong codes tried within a day" if status.wrong_codes else ""
    return f"{by}, {status.founding_codes} codes open{wrong}"


def _running(status: Status) -> str:
    if is_running(status):
        return f"yes, since {_ago(status.beats.get(START), status.now)}"
    return f"no, last tick {_ago(_last_seen(status), status.now)}"


def _overdue(status: Status) -> str:
    return f", {status.overdue} mornings overdue" if status.overdue else ""


def _due(due: DueNext, now: datetime) -> str:
    there = due.at.astimezone(ZoneInfo(due.zone))
    late = " (overdue)" if due.at <= now else ""
    return f"{due.name} {there:%a} {there.day} {there:%b %H:%M} {due.zone}{late}"


def _counts(by_state: Mapping[str, int]) -> str:
    told = (f"{n} {state.replace('_', ' ')}" for state, n in by_state.items() if n)
    return ", ".join(told) or "none"


def _quiet(status: Status) -> str:
    return f", {status.quiet} of them till quiet hours end" if status.quiet else ""


def _unreached(each: Unreached, now: datetime) -> str:
    return f"{each.name or 'others'} over {each.channel}, {_ago(each.since, now)}: {each.words}"


def _oldest(status: Status) -> str:
    oldest = status.oldest_waiting
    return "" if oldest is None else f"; the oldest waits since {_ago(oldest, status.now)}"


def _beats(status: Status, kind: str) -> str:
    found = {n.partition(":")[2]: at for n, at in status.beats.items() if n.startswith(f"{kind}:")}
    told = [f"{name} {_ago(at, status.now)}" for name, at in sorted(found.items())]
    return ", ".join(told) or "never"


def _texts(status: Status, paid: TextsPaid) -> Iterator[str]:
    if paid.most is not None and status.texts:
        yield f"texts      {status.texts_used:,} of {paid.most:,} segments this month (UTC)"
    for month, sent in groupby(status.texts, key=lambda sent: sent.month):
        people = list(sent)
        told = [f"{of.name or 'others'} {of.segments}" for of in people[:_PEOPLE_SHOWN]]
        more = len(people) - _PEOPLE_SHOWN
        told += [f"and {more} people more"] if more > 0 else []
        count = sum(of.segments for of in people)
        cost = "" if paid.price is None else f", {count * paid.price:.2f} at {paid.price} each"
        yield f"texts      {month:%b %Y} {count} segments{cost}: {', '.join(told)}"


def _weather(status: Status) -> str:
    if not status.yards:
        return "no yard has a place"
    longest = sorted(status.yards, key=lambda yard: yard.answered_at or _BEFORE_ALL)
    told = [_yard(yard, status.now) for yard in longest[:_YARDS_SHOWN]]
    more = len(longest) - _YARDS_SHOWN
    return ", ".join(told) + (f", and {more} yards with newer" if more > 0 else "")


def _yard(yard: YardAsked, now: datetime) -> str:
    failed = f" ({yard.failures} failures since)" if yard.failures else ""
    return f"{yard.yard} {_ago(yard.answered_at, now)}{failed}"


def _ago(at: datetime | None, now: datetime) -> str:
    if at is None:
        return "never"
    # Another machine's clock may be a little ahead.
    seconds = max(0, round((now - at).total_seconds()))
    for size, unit in ((86_400, "days"), (3_600, "h"), (60, "min")):
        if seconds >= 2 * size:
            return f"{seconds // size} {unit} ago"
    return f"{seconds} s ago"


def _iso(at: datetime | None) -> str | None:
    return None if at is None else f"{at:%Y-%m-%dT%H:%M:%SZ}"


@click.command("status")
@json_option
@pass_call
def status_command(call: Call, as_json: bool) -> None:
    """Show who is due next, what waits to be sent, and when the program last did what.

    All of it is read from the database, so any worker's machine may be asked.
    """
    engine = call.engine_to_look()
    if engine is None:
        raise nobody_yet(call)
    with reading(engine) as session:
        status = status_of(session, datetime.now(UTC))
    settings = call.settings
    paid = TextsPaid(settings.sms.segment_price, settings.sms.monthly_segments)
    told = (status, zone_release(), newest_version(), shown_address(engine.url), paid)
    if as_json:
        show(json.dumps(for_machine(*told), indent=2, ensure_ascii=False))
    else:
        show("\n".join(for_person(*told)))


_UNKNOWN = "unknown release"


def zone_release() -> str:
    """Name the release and where it is: ``2026a in /usr/share/zoneinfo``.

    The system's own goes before the package ``tzdata``, however old it is.
    """
    for folder in map(Path, zoneinfo.TZPATH):
        if (folder / "UTC").is_file():
            return f"{_release_in(folder)} in {folder}"
    return f"{importlib.import_module('tzdata').IANA_VERSION} in the package tzdata"


def _release_in(folder: Path) -> str:
    """Read the release from the files that say it, where a system has them."""
    compact, plain = folder / "tzdata.zi", folder / "+VERSION"
    if compact.is_file():
        with compact.open(encoding="utf-8") as lines:
            return lines.readline().removeprefix("# version ").strip()
    return plain.read_text(encoding="utf-8").strip() if plain.is_file() else _UNKNOWN
