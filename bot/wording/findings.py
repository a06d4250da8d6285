"""What was seen or done, and what a finding measured, in the words of the trade."""

from functools import singledispatch

from bot.wording.check_names import CHECK_WORDS
from bot.wording.days_and_numbers import counted, full_day, number, percent
from bot.wording.plain_letters import to_gsm7
from scheduling import values
from scheduling.entry_kinds import EntryKind
from scheduling.values import Fate, Flying, Forage, Pattern, Value

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
    EntryKind.EMPTIED: "emptied",
    EntryKind.WEATHER_SEEN: "weather",
    EntryKind.FORAGE_SEEN: "forage",
    EntryKind.PUT_OFF: "put off",
    EntryKind.YARD_TAKEN: "yard taken on for the day",
    EntryKind.NOTE: "note",
    EntryKind.MOVED: "moved away",
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


_BROOD = {Pattern.GOOD: "good sealed brood", Pattern.SPOTTY: "spotty sealed brood"}
_WEATHER = {Flying.FLYING: "flying weather", Flying.NOT_FLYING: "no flying weather"}
_FORAGE = {Forage.FLOW: "nectar flow", Forage.DEARTH: "dearth"}
_FATES = {
    None: "queen taken",
    Fate.SOLD: "queen sold",
    Fate.USED: "queen used",
    Fate.BANKED: "queen banked",
}


@singledispatch
def value_words(value: object) -> str:
    """Say the finding that carries this value.

    Raises:
        TypeError: not one of the values an entry can carry.
    """
    raise TypeError(f"no words for {type(value).__name__}")


@value_words.register
def _make_up(value: values.MakeUp) -> str:
    stocked = (
        (value.brood_frames, "frame brood", "frames brood"),
        (value.bee_frames, "frame bees", "frames bees"),
        (value.nurse_shakes, "shake of bees", "shakes of bees"),
        (value.food_frames, "frame food", "frames food"),
    )
    details = [counted(amount, one, many) for amount, one, many in stocked if amount is not None]
    if value.sealed_share is not None:
        details.append(f"brood {percent(value.sealed_share)} sealed")
    return ", ".join(["made up", *details])


@value_words.register
def _graft(value: values.Graft) -> str:
    words = "grafted" if value.cells is None else f"grafted {value.cells}"
    mother = (value.mother or "").strip()
    if mother:
        words += f" from {mother}"
    if value.larva_age_hours is not None:
        words += f", larvae {counted(value.larva_age_hours, 'hour', 'hours')}"
    return words


@value_words.register
def _cell_age(value: values.CellAge) -> str:
    if value.days_since_graft is not None:
        return f"cell in, {counted(value.days_since_graft, 'day', 'days')} from graft"
    return f"cell in, {counted(value.days_since_egg or 0, 'day', 'days')} from egg"


@value_words.register
def _virgin_age(value: values.VirginAge) -> str:
    return f"virgin in, {counted(value.days, 'day', 'days')} old"


@value_words.register
def _feed(value: values.Feed) -> str:
    details = []
    if value.syrup_litres is not None:
        details.append(f"{number(value.syrup_litres)} l syrup")
    elif value.ratio is not None:
        details.append("syrup")
    if value.ratio is not None:
        details[-1] += f" {value.ratio.strip()}"
    if value.honey_frames is not None:
        details.append(counted(value.honey_frames, "frame honey", "frames honey"))
    if value.fondant_kg is not None:
        details.append(f"{number(value.fondant_kg)} kg fondant")
    return f"fed {', '.join(details)}".strip()


@value_words.register
def _stores(value: values.Stores) -> str:
    if value.deep_frames == 0:
        return "no food"
    return f"food {counted(value.deep_frames, 'deep frame', 'deep frames')}"


@value_words.register
def _trap_count(value: values.TrapCount) -> str:
    return f"trap done, {value.beetles} {'beetle' if value.beetles == 1 else 'beetles'}"


@value_words.register
def _brood(value: values.Brood) -> str:
    return _BROOD[value.pattern]


@value_words.register
def _taken(value: values.Taken) -> str:
    words = _FATES[value.fate]
    destination = (value.destination or "").strip()
    return f"{words}, to {destination}" if destination else words


@value_words.register
def _day_weather(value: values.DayWeather) -> str:
    return _WEATHER[value.flying]


@value_words.register
def _yard_forage(value: values.YardForage) -> str:
    return _FORAGE[value.forage]


@value_words.register
def _put_off(value: values.PutOff) -> str:
    what = "" if value.check is None else f"{CHECK_WORDS[value.check].put_off} "
    return f"{what}put off to {full_day(value.until)}"


@value_words.register
def _moved(_value: values.Moved) -> str:
    return "moved here"


@value_words.register
def _struck(_value: values.Struck) -> str:
    return "taken back"
