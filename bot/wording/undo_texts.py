"""Answers to an undo: what is taken back of the set-up, or why nothing is."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from bot.wording.days_and_numbers import number
from bot.wording.place_names import compact
from bot.wording.plain_letters import to_gsm7
from scheduling.places import UnitName
from scheduling.records.set_up_parts import CREW, PERSON, UNITS, Parts


def nothing_to_undo() -> str:
    """Say that nothing is left that this person said."""
    return "Nothing of yours to undo."


def nothing_noted_there() -> str:
    """Say that the message whose undo is asked for noted nothing, or is not known any more."""
    return "I noted nothing with that one, or it is too old. undo by itself takes back your last."


def taken_back_already() -> str:
    """Say that the quoted message was taken back before."""
    return "That one is taken back already. Nothing changed."


def changed_since() -> str:
    """Refuse to put back what was changed once more."""
    return "That was changed again since. Nothing changed. Type it as you want it."


def noted_there_since(places: Sequence[str]) -> str:
    """Refuse to take away units of which something is noted."""
    some = ", ".join(places[:3]) + (" ..." if len(places) > 3 else "")
    return to_gsm7(f"Something is noted of {some}. Nothing changed. To take it away: remove box 4")


Fields = Mapping[str, tuple[Any, Any]]
"""What each field was, and what it had become."""


def change_undone(parts: Parts, yards: Mapping[str, str]) -> str:
    """Say what is as it was before.

    Args:
        parts: by part of the set-up and field, what it was and what it had become.
        yards: the name of each yard by its number.
    """
    said = [words for part, fields in parts.items() for words in _part(part, fields, yards)]
    return to_gsm7(f"Undone: {'; '.join(dict.fromkeys(said))}.")


def _part(part: str, fields: Fields, yards: Mapping[str, str]) -> Iterator[str]:
    what, _, number_of_yard = part.partition(" ")
    if what in (CREW, PERSON):
        for name, (was, _) in fields.items():
            if name in _SETTINGS:
                yield _SETTINGS[name](was)
    elif what == UNITS:
        yield from _units(fields, yards[number_of_yard])
    else:
        yield from _yard(fields, yards[number_of_yard])


def _units(fields: Fields, yard: str) -> Iterator[str]:
    for there, words in ((False, "gone"), (True, "back")):
        names = [UnitName.parse(name) for name, (was, _) in fields.items() if bool(was) is there]
        if names:
            yield f"{yard}: {compact(names)} {words}"


def _yard(fields: Fields, yard: str) -> Iterator[str]:
    was_called, is_called = fields.get("name", (yard, yard))
    if was_called is None:
        yield f"yard {is_called} gone"
    elif "removed_at" in fields:
        yield f"yard {yard} back"
    else:
        yield from _changed_yard(fields, yard)


def _changed_yard(fields: Fields, yard: str) -> Iterator[str]:
    if "name" in fields:
        yield f"{fields['name'][1]} is {yard} again"
    if "zone" in fields:
        yield f"{yard} clock {fields['zone'][0]}"
    if "latitude" in fields or "longitude" in fields:
        yield f"{yard} {_where(fields)}"


def _where(fields: Fields) -> str:
    latitude, longitude = (fields.get(name, (None, None))[0] for name in ("latitude", "longitude"))
    if latitude is None or longitude is None:
        return "is where it was on the map" if len(fields) == 1 else "has no place on the map"
    return f"at {latitude:.4f}, {longitude:.4f}"


_SETTINGS: Mapping[str, Callable[[Any], str]] = {
    "morning": lambda was: f"morning {_clock(was)}",
    "zone": lambda was: f"clock {was}",
    "feeder_litres": lambda was: f"feeder {number(was)} l",
    "quiet_from": lambda _: "quiet hours as before",
    "quiet_until": lambda _: "quiet hours as before",
    "first_channel": lambda _: "channels as before",
    "fallback_minutes": lambda _: "channels as before",
    "daily_word": lambda _: "daily word as before",
    "look_at": lambda _: "odds as before",
    "give_up_at": lambda _: "odds as before",
    "weekdays": lambda _: "days as before",
}
"""Setting -> what is said when it is as it was; of when it was asked for nothing is said."""


def _clock(was: str) -> str:
    hour, minute, *_ = was.split(":")
    return f"{int(hour)}:{minute}"
