"""Replies that fit a check: the example under a morning, and the buttons."""

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import islice

from bot.channels.channel import Button
from bot.wording.check_names import CHECK_WORDS
from bot.wording.groups import Detail, Group, YardDay, groups
from bot.wording.place_names import place_words
from bot.wording.plain_letters import to_gsm7
from scheduling.check_kinds import UPKEEP, CheckKind
from scheduling.places import Place, UnitName

_BUTTON_ORDER = tuple(kind for kind, words in CHECK_WORDS.items() if words.buttons)
_MOST_ROWS = 3
_MOST_BYTES = 64
"""Of a button's text, as Telegram allows it."""


def example(yard_days: Sequence[YardDay], day: date) -> str:
    """One reply that fits what is due: ``4a eggs, 4c no eggs``; or nothing.

    A look for the queen rather than food or a trap, since more can be answered to it.
    """
    fitting = [
        (group.kind in UPKEEP, yard_day.yard if len(yard_days) > 1 else "", group)
        for yard_day in yard_days
        for group in groups(yard_day, day, Detail.BARE)
        if CHECK_WORDS[group.kind].replies and _units(group)
    ]
    if not fitting:
        return ""
    _, yard, group = min(fitting, key=lambda item: item[0])
    return to_gsm7(f"{yard} {_outcome_words(group.kind, _units(group))}".strip())


def _units(group: Group) -> list[UnitName]:
    return [place.unit for place in group.places if place.unit is not None]


def _outcome_words(kind: CheckKind, units: Sequence[UnitName]) -> str:
    outcomes = CHECK_WORDS[kind].replies
    if len(units) == 1 or len(outcomes) == 1:
        return outcomes[0].format(units[0])
    return f"{outcomes[0].format(units[0])}, {outcomes[1].format(units[-1])}"


def buttons(yard_days: Sequence[YardDay], day: date) -> tuple[tuple[Button, ...], ...]:
    """At most three rows of outcomes for the commonest checks, a row for each group of units."""
    found = [
        (_BUTTON_ORDER.index(group.kind), group, yard_day)
        for yard_day in yard_days
        for group in _all_on_time(groups(yard_day, day, Detail.BARE))
        if group.kind in _BUTTON_ORDER
    ]
    in_order = sorted(found, key=lambda item: item[0])
    # One after the other: only the first few rows are ever worded.
    several = len(yard_days) > 1
    rows = (
        _row(group, yard_day.yard if several else "", yard_day.units)
        for _, group, yard_day in in_order
    )
    return tuple(islice((row for row in rows if row), _MOST_ROWS))


def _all_on_time(found: Iterable[Group]) -> list[Group]:
    """Late and other places of one check in one group: the answer is the same."""
    merged: dict[CheckKind, tuple[Place, ...]] = {}
    for group in found:
        merged[group.kind] = merged.get(group.kind, ()) + group.places
    return [Group(kind, "", "", late=False, places=places) for kind, places in merged.items()]


def _row(group: Group, yard: str, units: tuple[UnitName, ...]) -> tuple[Button, ...]:
    """Word the buttons of a group; a yard is named if there are several."""
    named = f"{yard} {place_words(group.places, units)}".strip()
    texts = [outcome.format(named) for outcome in _outcomes_offered(group.kind)]
    return tuple(Button(text, text) for text in texts if len(text.encode()) <= _MOST_BYTES)


def _outcomes_offered(kind: CheckKind) -> tuple[str, ...]:
    words = CHECK_WORDS[kind]
    return words.replies[: words.buttons]
