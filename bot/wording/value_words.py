"""What a finding measured, said with what was done."""

from functools import singledispatch

from bot.wording.check_names import CHECK_WORDS
from bot.wording.day_names import full_day
from bot.wording.quantities import counted, number, percent
from scheduling import values
from scheduling.values import Fate, Flying, Forage, Pattern

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
def _struck(_value: values.Struck) -> str:
    return "taken back"
