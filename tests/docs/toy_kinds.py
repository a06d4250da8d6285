"""A toy kind of entry and a toy kind of check, as changes of the files that DEVELOPERS.md lists."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Change:
    """Lines put into a file before the first place where ``before`` stands; at its end without."""

    path: str
    lines: str
    before: str = ""


OF_THE_ENTRY = (
    Change("scheduling/entry_kinds.py", '    TEMPER_SEEN = "temper_seen"\n', "    ROBBED ="),
    Change(
        "scheduling/values.py",
        """class Mood(StrEnum):
    CALM = "calm"
    CROSS = "cross"


@dataclass(frozen=True)
class Temper:
    mood: Mood


""",
        "@dataclass(frozen=True)\nclass DayWeather",
    ),
    Change("scheduling/values.py", "    | Temper\n", "    | PutOff\n"),
    Change(
        "scheduling/entry_facts.py",
        """    EntryKind.TEMPER_SEEN: EntryFacts(
        values.Temper,
        value_needed=True,
        answers=frozenset({CheckKind.TEMPER}),
        opened=True,
        looked_for_at=frozenset({CheckKind.TEMPER}),
    ),
""",
        "    EntryKind.ROBBED: EntryFacts",
    ),
    Change(
        "scheduling/units/effects.py",
        '    EntryKind.TEMPER_SEEN: "the rule reads it from the entries",\n',
        "    EntryKind.NOTE:",
    ),
    Change(
        "bot/reading/lexicon/colony_phrases.py",
        """    (EntryKind.TEMPER_SEEN, Temper(Mood.CROSS), ("cross bees", "bees cross")),
    (EntryKind.TEMPER_SEEN, Temper(Mood.CALM), ("calm bees", "bees calm")),
""",
        "    (\n        EntryKind.FORAGE_SEEN,\n        YardForage(Forage.FLOW)",
    ),
    Change(
        "bot/reading/lexicon/colony_phrases.py",
        "from scheduling.values import Mood, Temper\n",
        "from scheduling.values import",
    ),
    Change(
        "bot/wording/findings.py",
        '    EntryKind.TEMPER_SEEN: "temper",\n',
        "    EntryKind.ROBBED:",
    ),
    Change(
        "bot/wording/findings.py",
        """

@value_words.register
def _temper(value: values.Temper) -> str:
    return f"{value.mood} bees"
""",
    ),
    Change("deploy/README.md", "`temper_seen`, ", "`robbed`,"),
)

OF_THE_CHECK = (
    Change("scheduling/check_kinds.py", '    TEMPER = "temper"\n', '    TAKE = "'),
    Change(
        "scheduling/check_kinds.py",
        "    CheckKind.TEMPER: CheckFacts(Work.COLONY),\n",
        "    CheckKind.TAKE: CheckFacts",
    ),
    Change(
        "scheduling/checks/check.py",
        '    WAS_CROSS = "was_cross"\n',
        '    PUT_OFF = "put_off"',
    ),
    Change(
        "scheduling/trade/care.py",
        """
CROSS_AGAIN = Constant(
    "days after bees were cross on which to look again",
    (14, 10, 21),
    Unit.DAYS,
    Evidence.COMMON_PRACTICE,
    note="a toy",
)
""",
    ),
    Change(
        "scheduling/checks/temper.py",
        '''"""The second look at cross bees."""

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.units.state import UnitState
from scheduling.values import Mood, Temper


def temper(state: UnitState) -> tuple[Check, ...]:
    """See whether bees that were cross still are."""
    told = [entry for entry in state.entries if entry.kind is EntryKind.TEMPER_SEEN]
    if not told or told[-1].value != Temper(Mood.CROSS):
        return ()
    seen = told[-1].on
    why = Why(Cause.WAS_CROSS, seen=seen)
    return (due(state, CheckKind.TEMPER, table.CROSS_AGAIN.window(seen), why),)
''',
    ),
    Change(
        "scheduling/checks/calendar.py",
        "from scheduling.checks.temper import temper\n",
        "from scheduling.units.state",
    ),
    Change("scheduling/checks/calendar.py", "        *temper(queen.state),\n", "        *beetles("),
    Change(
        "bot/wording/check_names.py",
        """    CheckKind.TEMPER: CheckWords(
        "see their temper", "temper", replies=("{} calm bees", "{} cross bees")
    ),
""",
        "    CheckKind.TAKE: CheckWords",
    ),
    Change(
        "bot/wording/reasons.py",
        '    Cause.WAS_CROSS: lambda why, today: _seen("cross", why, today),\n',
        "    Cause.PUT_OFF:",
    ),
)
