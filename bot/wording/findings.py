"""What was seen or done, in the words of the trade."""

from bot.wording.plain_letters import to_gsm7
from bot.wording.value_words import value_words
from scheduling.entry_kinds import EntryKind
from scheduling.values import Value

_PLAIN: dict[EntryKind, str] = {
    EntryKind.MADE_UP: "made up",
    EntryKind.GRAFTED: "grafted",
    EntryKind.CELL_PLACED: "cell in",
    EntryKind.VIRGIN_PLACED: "virgin in",
    EntryKind.CAGED_QUEEN_PLACED: "caged queen in",
    EntryKind.RAISING_OWN: "raising own",
    EntryKind.EMERGED: "out",
    EntryKind.NOT_EMERGED: "not out yet",
    EntryKind.CELL_FAILED: "dud cell",
    EntryKind.RELEASED: "released",
    EntryKind.STILL_CAGED: "still caged",
    EntryKind.QUEEN_DEAD: "queen dead",
    EntryKind.VIRGIN_SEEN: "virgin seen",
    EntryKind.QUEEN_SEEN: "queen seen",
    EntryKind.QUEEN_NOT_SEEN: "queen not seen",
    EntryKind.EGGS: "eggs",
    EntryKind.NO_EGGS: "no eggs",
    EntryKind.SEALED_BROOD: "sealed brood",
    EntryKind.DRONE_LAYER: "drone layer",
    EntryKind.LAYING_WORKERS: "laying workers",
    EntryKind.OWN_CELLS: "own cells",
    EntryKind.FED: "fed",
    EntryKind.STORES: "food seen",
    EntryKind.TRAP_SET: "trap set",
    EntryKind.TRAP_SERVICED: "trap done",
    EntryKind.BROOD_ADDED: "brood added",
    EntryKind.BEES_ADDED: "bees added",
    EntryKind.QUEEN_TAKEN: "queen taken",
    EntryKind.ROBBED: "robbed",
    EntryKind.ABSCONDED: "absconded",
    EntryKind.DEAD: "dead",
    EntryKind.COMBINED: "combined",
    EntryKind.WEATHER_SEEN: "weather",
    EntryKind.FORAGE_SEEN: "forage",
    EntryKind.PUT_OFF: "put off",
    EntryKind.YARD_TAKEN: "yard taken on for the day",
    EntryKind.NOTE: "note",
    EntryKind.STRIKE: "taken back",
}


def finding_words(kind: EntryKind, value: Value | None = None, note: str = "") -> str:
    """Say the finding as a keeper would: ``fed 0.95 l syrup 1:1``, ``cell in, 10 days``.

    ``note`` is what the person added in own words; for a note it is the whole of it.
    """
    if kind is EntryKind.NOTE:
        return to_gsm7(f"note: {note}") if note else "note"
    words = _PLAIN[kind] if value is None else value_words(value)
    return to_gsm7(f"{words} ({note})" if note else words)
