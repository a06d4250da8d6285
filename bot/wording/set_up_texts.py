"""Answers to setting up and settling by chat: yards, boxes, times, channels, odds and days."""

from collections.abc import Mapping, Sequence, Set
from datetime import date, time

from bot.channels.traits import traits_of
from bot.reading.name_clashes import NameClash
from bot.wording.days_and_numbers import clock, full_day, number, percent, weekday_name
from bot.wording.place_names import compact
from bot.wording.plain_letters import to_gsm7
from scheduling.places import UnitName
from scheduling.trade import table
from scheduling.walk.odds import (
    BOLDEST,
    LATEST_GIVEN_UP,
    MOST_CAREFUL,
    SOONEST_GIVEN_UP,
    USUAL,
    Odds,
    Shift,
)


def yard_made(name: str, zone: str) -> str:
    """Confirm a new yard and say what it needs next."""
    return to_gsm7(f"Yard {name} made, clock {zone}. Now its boxes, as in: boxes 1-12 of 3")


def yard_name_refused(name: str, clash: NameClash) -> str:
    """Refuse a yard's name that means something else when it is typed."""
    return to_gsm7(
        f"No yard can be called {name}: when typed, that is {clash}. Another, as in: new yard River"
    )


def yard_turned_to(name: str, units: int) -> str:
    """Say that the talk turned to a yard that exists."""
    return to_gsm7(f"Now at {name}, {_units(units)}. What you send is about this yard.")


def yards_list(yards: Mapping[str, Sequence[UnitName]]) -> str:
    """List every yard with its units."""
    if not yards:
        return no_yard()
    lines = [f"{name}: {_held(units)}" for name, units in yards.items()]
    return to_gsm7("\n".join(lines))


def _held(units: Sequence[UnitName]) -> str:
    return f"{compact(units, units)} ({_units(len(units))})" if units else "no boxes yet"


def _units(count: int) -> str:
    return "1 unit" if count == 1 else f"{count} units"


def boxes_made(yard: str, added: Sequence[UnitName], units: Sequence[UnitName]) -> str:
    """Confirm boxes added to a yard; ``units`` are all it has now."""
    if not added:
        return to_gsm7(f"{yard} has these boxes already: {compact(units, units)}.")
    first = added[0]
    return to_gsm7(
        f"{yard}: {_units(len(added))} added, {compact(added, units)}. "
        f"Tell me what goes in, as in: 10 day cell in {first}"
    )


def many_units(yard: str, count: int) -> str:
    """Ask whether so many units are meant."""
    return to_gsm7(f"{_units(count)} more in {yard}? Nothing made yet. Type yes or no")


def box_is_divided_otherwise(yard: str, box: int, units: Sequence[UnitName]) -> str:
    """Refuse a box named with another number of compartments than it has."""
    names = " ".join(str(unit) for unit in units)
    return to_gsm7(f"Box {box} at {yard} is {names} already. Nothing changed.")


def morning_set(at: time, zone: str, *, not_today: bool = False) -> str:
    """Confirm the person's morning time.

    Args:
        at: the time by the person's clock.
        zone: that clock's zone.
        not_today: that time is still to come today, and yet the first message comes tomorrow.
    """
    first = " The first comes tomorrow." if not_today else ""
    return to_gsm7(
        f"Morning message at {clock(at)}, {zone} time.{first} No message when nothing is due."
    )


def zone_set(zone: str, local: time, yards: Sequence[str] = ()) -> str:
    """Confirm the clock; ``local`` is the time there now, ``yards`` are those it holds for too."""
    too = f" For {', '.join(yards)} too." if yards else ""
    return to_gsm7(f"Clock set to {zone}. It is {clock(local)} there now.{too}")


def zone_unknown(word: str, near: Sequence[str] = ()) -> str:
    """Refuse an unknown time zone; ``near`` are names like it."""
    asked = f" Did you mean {' or '.join(near)}?" if near else ""
    return to_gsm7(f"No time zone {word}.{asked} Write it as in: zone America/Chicago")


def location_set(
    yard: str, latitude: float, longitude: float, was: tuple[float, float] | None = None
) -> str:
    """Confirm a yard's place on the map (degrees, north and east positive), and tell the last."""
    before = f" It was at {was[0]:.4f}, {was[1]:.4f}." if was is not None else ""
    return to_gsm7(f"{yard} is at {latitude:.4f}, {longitude:.4f}.{before} undo takes it back.")


def not_this_yard(yard: str) -> str:
    """Tell how to place another yard than the one last spoken of."""
    return to_gsm7(f"Not {yard}? Type undo, then the yard's name, and send it again.")


def feeder_set(litres: float) -> str:
    """Confirm what one feeder holds."""
    return f"One feeder is {number(litres)} l: 'fed 4a one jar' counts that."


def no_yard() -> str:
    """Ask for a yard, without which nothing can be noted."""
    return "No yard yet. Make one, as in: new yard River"


def which_yard(yards: Sequence[str], example: str) -> str:
    """Ask which yard a command is about."""
    return to_gsm7(f"Which yard: {' or '.join(yards)}? Say it first, as in: {yards[0]} {example}")


def _shown(channel: str) -> str:
    return traits_of(channel).shown_as or channel


def channels_words(channels: Sequence[str], minutes: int | None) -> str:
    """Say which channel comes first and when the next is tried.

    Args:
        channels: names of the person's channels, the first one first.
        minutes: after how long without delivery the next is tried; None for never.
    """
    names = [_shown(each) for each in channels]
    if len(names) < 2:
        return to_gsm7(
            f"You are reached by {names[0]} alone. One more: number and it, or add chat."
        )
    when = "only when it fails" if minutes is None else f"or after {minutes} minutes undelivered"
    return to_gsm7(
        f"{names[0]} first, then {' then '.join(names[1:])}, {when}. "
        "Change: text first, other channel after 30 minutes, other channel never"
    )


def not_yours(channel: str) -> str:
    """Refuse a channel on which the person is not reached."""
    name = _shown(channel)
    how = "number and it" if traits_of(channel).needs_consent else f"add {name}"
    return to_gsm7(f"You have no {name} with me yet. Type: {how}")


def add_by_code(code: str, expires: date, link: str | None = None) -> str:
    """Give a person the code by which they are known on one more channel."""
    opened = f" or open {link}" if link else ""
    return to_gsm7(
        f"Send me from there: join {code}{opened}\n"
        f"Good once, to {full_day(expires)}. Whoever sends it is you to me, so tell nobody."
    )


def channel_added(name: str, channels: Sequence[str], minutes: int | None) -> str:
    """Welcome a person on one more channel."""
    return to_gsm7(f"Yes, {name}: this is your second way to me. ") + channels_words(
        channels, minutes
    )


def quiet_hours_words(spans: Mapping[str, tuple[time, time]], zone: str) -> str:
    """Say when nothing comes unasked on each channel, in the person's zone."""
    if len(set(spans.values())) == 1:
        told = _span(next(iter(spans.values())))
    else:
        told = "; ".join(f"{channel} {_span(span)}" for channel, span in spans.items())
    return to_gsm7(
        f"Quiet {told}, {zone} time: nothing but answers to you comes then. "
        "Change: quiet 21 to 6, quiet off, usual quiet. An earlier morning: morning 5:45"
    )


def _span(span: tuple[time, time]) -> str:
    begin, end = span
    return "never" if begin == end else f"{clock(begin)} to {clock(end)}"


def odds_words(odds: Odds, shift: Shift) -> str:
    """Say at which chances the crew looks and gives up, and what days that makes."""
    look = table.LAYING_LOOK_FROM_EMERGENCE.days + shift.best
    give_up = table.GIVE_UP_FROM_EMERGENCE.days + shift.give_up
    ending = "" if odds == USUAL else "\nusual odds goes back."
    return (
        f"Look for eggs at {percent(odds.best)} sure: in fair weather day {look} "
        "after she is out.\n"
        f"Give up under a {percent(odds.give_up)} chance that she still lays: "
        f"from day {give_up}.{ending}"
    )


def look_refused() -> str:
    """Refuse a chance at which nobody should look."""
    return f"Say {percent(BOLDEST)} to {percent(MOST_CAREFUL)}, as in: look at 80 percent"


def give_up_refused() -> str:
    """Refuse a chance at which nobody should give a queen up."""
    limits = f"{percent(LATEST_GIVEN_UP)} to {percent(SOONEST_GIVEN_UP)}"
    return f"Say {limits}, as in: give up at 10 percent"


def days_words(weekdays: Set[int]) -> str:
    """Say on which days the crew goes out."""
    if len(weekdays) == 7:
        return "You go out any day. For less, as in: days sat sun, or: not on monday"
    names = " ".join(weekday_name(day) for day in sorted(weekdays))
    return f"You go out {names}. week plans for these days; any day: days all"


def no_day_left() -> str:
    """Refuse a week without a day to go out."""
    return "No day would be left. Nothing changed. Say one, as in: days sat sun"
