"""Food, traps, brood and put-offs: what is known of the unit besides its queen."""

from scheduling.check_kinds import CHECK_FACTS, CheckKind, Work
from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.units.state import UnitState
from scheduling.values import PutOff, Stores, TrapCount


def fed(state: UnitState, entry: Entry) -> UnitState:
    """Note the day food was given."""
    return state._replace(fed_on=entry.on)


def stores(state: UnitState, entry: Entry) -> UnitState:
    """Note the food seen."""
    assert isinstance(entry.value, Stores)  # noqa: S101 - checked when the entry was made
    return state._replace(food_seen_on=entry.on, food_deep_frames=entry.value.deep_frames)


def trap_set(state: UnitState, entry: Entry) -> UnitState:
    """Note the day the beetle trap went in."""
    return state._replace(trap_on=entry.on)


def trap_serviced(state: UnitState, entry: Entry) -> UnitState:
    """Note the day the beetle trap was emptied, and its beetles if they were counted."""
    assert entry.value is None or isinstance(entry.value, TrapCount)  # noqa: S101 - checked
    beetles = entry.value.beetles if entry.value is not None else None
    return state._replace(trap_on=entry.on, beetles=beetles)


def brood_added(state: UnitState, entry: Entry) -> UnitState:
    """Note young brood given from elsewhere."""
    return state._replace(young_brood_on=entry.on, brood_added_on=entry.on)


def robbed(state: UnitState, entry: Entry) -> UnitState:
    """Note the day the unit was robbed."""
    return state._replace(robbed_on=entry.on)


def note_put_off(state: UnitState, entry: Entry) -> UnitState:
    """Put off the named check, or each kind there is; a later word on a check replaces it."""
    assert isinstance(entry.value, PutOff)  # noqa: S101 - checked when the entry was made
    return state._replace(put_offs=with_put_off(state.put_offs, entry.value))


def with_put_off(put_offs: tuple[PutOff, ...], added: PutOff) -> tuple[PutOff, ...]:
    """Add a put-off to those in force, one for each check it speaks of."""
    kinds = _put_off_by(added)
    kept = [put_off for put_off in put_offs if put_off.check not in kinds]
    new = [PutOff(added.until, kind) for kind in CheckKind if kind in kinds]
    return (*kept, *new)


def _put_off_by(added: PutOff) -> set[CheckKind]:
    if added.check is not None:
        return {added.check}
    return {kind for kind, facts in CHECK_FACTS.items() if facts.work is not Work.REST}


def without_answered(put_offs: tuple[PutOff, ...], kind: EntryKind) -> tuple[PutOff, ...]:
    """Drop what was put off and is now answered, so that it moves no later check."""
    answered = ENTRY_FACTS[kind].answers
    return tuple(put_off for put_off in put_offs if put_off.check not in answered)
