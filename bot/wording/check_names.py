"""What each check asks a keeper to do, and what a unit's stage is called."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from bot.wording.days_and_numbers import counted
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Why
from scheduling.units.state import Stage, UnitState


@dataclass(frozen=True)
class CheckWords:
    """All that a keeper reads of a kind of check.

    Attributes:
        to_do: what there is to do, without a capital.
        put_off: what it is called when it is put off.
        otherwise: what there is to do where the cause changes it.
        replies: what may be answered, the hoped-for outcome first; units go into the braces. Each
            is offered as a button.
        replies_when: what may be answered where the cause changes it.
    """

    to_do: str
    put_off: str
    otherwise: Mapping[Cause, str] = field(default_factory=dict)
    replies: tuple[str, ...] = ()
    replies_when: Mapping[Cause, tuple[str, ...]] = field(default_factory=dict)


CHECK_WORDS: dict[CheckKind, CheckWords] = {
    CheckKind.LAYING: CheckWords("look for eggs", "eggs", replies=("{} eggs", "{} no eggs")),
    CheckKind.EMERGENCE: CheckWords("see if out", "emergence", replies=("{} out", "{} not out")),
    CheckKind.RELEASE: CheckWords("check cage", "cage", replies=("{} released", "{} still caged")),
    CheckKind.SEALED_BROOD: CheckWords(
        "look for sealed brood", "sealed brood", replies=("{} good brood", "{} spotty")
    ),
    CheckKind.FEED: CheckWords(
        "check food",
        "food",
        {
            Cause.FOOD_LOW: "feed",
            Cause.FOOD_RUNS_LOW: "feed",
            Cause.ROBBED: "check for robbing",
        },
        replies=("fed {}",),
    ),
    CheckKind.TRAP: CheckWords(
        "see to trap",
        "trap",
        {Cause.MANY_BEETLES: "see to trap and look for larvae"},
        replies=("trap {}",),
    ),
    CheckKind.GIVE_UP: CheckWords(
        "last look for eggs",
        "last look",
        {Cause.LAYING_WORKERS_SEEN: "break up"},
        replies=("{} eggs", "{} no eggs"),
        replies_when={Cause.LAYING_WORKERS_SEEN: ()},
    ),
    CheckKind.RECELL: CheckWords(
        "give a cell",
        "next cell",
        {Cause.TOO_WEAK: "combine"},
        replies=("cell in {}",),
        replies_when={Cause.TOO_WEAK: ()},
    ),
    CheckKind.BOOST: CheckWords(
        "boost",
        "boost",
        {Cause.FEW_BEES: "add nurse bees", Cause.BEES_RUN_SHORT: "give brood"},
        replies=("brood added {}",),
        replies_when={Cause.FEW_BEES: ("bees added {}",)},
    ),
    CheckKind.TAKE: CheckWords("queen ready", "taking", replies=("sold queen {}",)),
    CheckKind.CELLS_RIPE: CheckWords("place cells", "placing cells"),
    CheckKind.REST: CheckWords("leave alone", "rest"),
    CheckKind.MOVE_UP: CheckWords("move held queen", "moving on"),
}
"""The words of each kind, in the order of their buttons: the commonest checks first."""

_STAGES: dict[Stage, str] = {
    Stage.EMPTY: "empty",
    Stage.WAITING: "no queen, no cell",
    Stage.CELL: "cell",
    Stage.CAGED: "queen in cage",
    Stage.RAISING_OWN: "raising its own",
    Stage.VIRGIN: "virgin",
    Stage.LAYING: "laying",
    Stage.PROVEN: "laying, good brood",
    Stage.DRONE_LAYER: "drone layer",
    Stage.LAYING_WORKERS: "laying workers",
    Stage.ENDED: "ended",
}


def replies_to(kind: CheckKind, cause: Cause | None = None) -> tuple[str, ...]:
    """Give what may be answered to a check; units go into the braces."""
    words = CHECK_WORDS[kind]
    return words.replies if cause is None else words.replies_when.get(cause, words.replies)


def to_do(kind: CheckKind, why: Why | None = None) -> str:
    """Say what there is to do, as in ``look for eggs``; without a capital."""
    words = CHECK_WORDS[kind]
    if why is None:
        return words.to_do
    if why.cause is Cause.FEW_BEES and why.shakes:
        return f"add {counted(why.shakes, 'shake', 'shakes')} of nurse bees"
    if why.cause is Cause.TRAP_FULL and why.seen is None:
        return "put a trap in"
    return words.otherwise.get(why.cause, words.to_do)


def stage_name(state: UnitState) -> str:
    """Say what the unit is now, as in ``virgin`` or ``laying, good brood``."""
    if state.stage is Stage.VIRGIN and state.mated_when_placed:
        return "mated queen, not yet seen to lay"
    return _STAGES[state.stage]
