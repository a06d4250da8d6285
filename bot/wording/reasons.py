"""Why a check or a rest is there, in one short clause."""

from collections.abc import Callable
from datetime import date

from bot.wording.days_and_numbers import day_count, day_words, dose_words
from scheduling.checks.check import Cause, Why
from scheduling.trade import table


def reason(why: Why, today: date) -> str:
    """Say the cause as one clause, dates told from ``today``; a date not known is left out."""
    return _CLAUSES[why.cause](why, today)


def _joined(*pieces: str) -> str:
    return ", ".join(piece for piece in pieces if piece)


def _seen(words: str, why: Why, today: date) -> str:
    return f"{words} {day_words(why.seen, today)}" if why.seen else words


def _since_or_from(words: str, day: date | None, today: date) -> str:
    """``eggs due since Tue`` once it is past, ``eggs due from Thu`` until then."""
    if day is None:
        return words
    if day == today:
        return f"{words} today"
    return f"{words} {'since' if day < today else 'from'} {day_words(day, today)}"


def _cells_ready(why: Why, today: date) -> str:
    return _since_or_from("cells ripe", why.about, today)


def _hang_loose(_why: Why, _today: date) -> str:
    return "pupae hang loose, do not jolt the cells"


def _should_be_out(why: Why, today: date) -> str:
    if why.about is not None and why.about > today:
        return f"should be out {day_words(why.about, today)}"
    return _since_or_from("should be out", why.about, today)


def _still_sealed(why: Why, today: date) -> str:
    return _seen("still sealed", why, today)


def _settling(_why: Why, _today: date) -> str:
    return "just placed, let them settle"


def _candy_eaten(why: Why, _today: date) -> str:
    if why.days is None:
        return "candy should be eaten"
    return f"candy should be eaten after {day_count(why.days)}"


def _still_caged(why: Why, today: date) -> str:
    return _seen("still caged", why, today)


def _maturing(why: Why, today: date) -> str:
    if why.about is None:
        return "maturing and mating"
    return f"maturing and mating to {day_words(why.about, today)}"


def _eggs_expected(why: Why, today: date) -> str:
    return _since_or_from("eggs due", why.about, today)


def _eggs_delayed(why: Why, today: date) -> str:
    late = "late for no flying weather"
    if why.days is not None:
        late = f"{day_count(why.days)} {late}"
    return _joined(_eggs_expected(why, today), late)


def _no_eggs_yet(why: Why, today: date) -> str:
    return _joined(_seen("no eggs", why, today), "may still lay")


def _mates_late(why: Why, today: date) -> str:
    none = f"none from {day_words(why.about, today)}" if why.about is not None else ""
    age = "late" if why.days is None else f"{day_count(why.days)} old"
    return _joined(_seen("no eggs", why, today), f"{age}, fewer mate well", none)


def _late_virgin(why: Why, today: date) -> str:
    age = "not mated in time" if why.days is None else f"not laying at {day_count(why.days)}"
    return _joined(age, _since_or_from("give up", why.about, today) if why.about else "")


def _brood_seals(why: Why, today: date) -> str:
    if why.seen is not None:
        return f"eggs seen {day_words(why.seen, today)}"
    return _since_or_from("sealed brood due", why.about, today)


def _spotty(why: Why, today: date) -> str:
    return _joined(_seen("spotty", why, today), "look again")


def _long_enough(why: Why, today: date) -> str:
    laying = f"laying since {day_words(why.seen, today)}" if why.seen else "laying long enough"
    if why.about is not None and why.about > today:
        return _joined(laying, f"may be taken from {day_words(why.about, today)}")
    return laying


def _laying_workers_likely(why: Why, today: date) -> str:
    if why.about is None:
        return ""
    return _since_or_from("laying workers likely", why.about, today)


def _cell_was_bad(why: Why, today: date) -> str:
    return _joined(_seen("bad cell", why, today), _laying_workers_likely(why, today))


def _queen_lost(why: Why, today: date) -> str:
    lost = f"no queen since {day_words(why.seen, today)}" if why.seen else "no queen"
    return _joined(lost, _laying_workers_likely(why, today))


def _queen_taken(why: Why, today: date) -> str:
    return _joined(_seen("queen taken", why, today), "next cell goes in")


def _drone_layer(why: Why, today: date) -> str:
    return _joined(_seen("only drone brood", why, today), "she must go")


def _laying_workers(why: Why, today: date) -> str:
    return _joined(_seen("laying workers", why, today), "combine or shake out")


def _own_cells(why: Why, today: date) -> str:
    return _seen("own cells seen", why, today)


def _no_open_brood(why: Why, today: date) -> str:
    gone = f"no open brood since {day_words(why.seen, today)}" if why.seen else "no open brood"
    return _joined(gone, _laying_workers_likely(why, today))


def _food_look(why: Why, today: date) -> str:
    if why.seen is not None:
        return f"food last seen {day_words(why.seen, today)}"
    return "food not seen" if why.days is None else f"food not seen for {day_count(why.days)}"


def _food_low(why: Why, today: date) -> str:
    return _joined(_seen("food low", why, today), dose_words(why.dose), _robbers(why))


def _food_runs_low(why: Why, today: date) -> str:
    low = _since_or_from("food low", why.about, today)
    return _joined(low, dose_words(why.dose), _robbers(why))


def _robbers(why: Why) -> str:
    if not why.dearth:
        return ""
    return f"dearth: {table.ROBBING_ENTRANCE.value:g} mm entrance, feed inside at dusk"


def _few_bees(_why: Why, _today: date) -> str:
    return "too few to warm the brood, add them at once"


def _bees_run_short(why: Why, today: date) -> str:
    return _since_or_from("too few bees", why.about, today)


def _too_weak(why: Why, today: date) -> str:
    lost = f"no queen since {day_words(why.seen, today)}" if why.seen else "no queen"
    return _joined(lost, "too few bees for another round")


def _trap_full(why: Why, today: date) -> str:
    return f"trap last done {day_words(why.seen, today)}" if why.seen else "no trap in yet"


def _many_beetles(why: Why, today: date) -> str:
    count = "many beetles" if why.beetles is None else f"{why.beetles} beetles"
    return f"{_seen(count, why, today)}; larvae or slime: act now"


def _beetles_rise(why: Why, today: date) -> str:
    count = "more beetles" if why.beetles is None else f"up to {why.beetles} beetles"
    return _seen(count, why, today)


def _robbed(why: Why, today: date) -> str:
    return _joined(_seen("robbed", why, today), "look for damage and food")


def _put_off(why: Why, today: date) -> str:
    return f"put off to {day_words(why.about, today)}" if why.about else "put off"


_CLAUSES: dict[Cause, Callable[[Why, date], str]] = {
    Cause.CELLS_READY: _cells_ready,
    Cause.PUPAE_HANG_LOOSE: _hang_loose,
    Cause.SHOULD_BE_OUT: _should_be_out,
    Cause.STILL_SEALED: _still_sealed,
    Cause.SETTLING: _settling,
    Cause.CANDY_EATEN: _candy_eaten,
    Cause.STILL_CAGED: _still_caged,
    Cause.MATURING_AND_MATING: _maturing,
    Cause.EGGS_EXPECTED: _eggs_expected,
    Cause.EGGS_DELAYED: _eggs_delayed,
    Cause.NO_EGGS_YET: _no_eggs_yet,
    Cause.MATES_LATE: _mates_late,
    Cause.LATE_VIRGIN: _late_virgin,
    Cause.WORKER_BROOD_SEALS: _brood_seals,
    Cause.SPOTTY_BROOD: _spotty,
    Cause.LAYING_LONG_ENOUGH: _long_enough,
    Cause.CELL_WAS_BAD: _cell_was_bad,
    Cause.QUEEN_LOST: _queen_lost,
    Cause.QUEEN_WAS_TAKEN: _queen_taken,
    Cause.DRONE_LAYER_SEEN: _drone_layer,
    Cause.LAYING_WORKERS_SEEN: _laying_workers,
    Cause.OWN_CELLS_SEEN: _own_cells,
    Cause.NO_OPEN_BROOD: _no_open_brood,
    Cause.FOOD_LOOK: _food_look,
    Cause.FOOD_LOW: _food_low,
    Cause.FOOD_RUNS_LOW: _food_runs_low,
    Cause.FEW_BEES: _few_bees,
    Cause.BEES_RUN_SHORT: _bees_run_short,
    Cause.TOO_WEAK: _too_weak,
    Cause.TRAP_FULL: _trap_full,
    Cause.MANY_BEETLES: _many_beetles,
    Cause.BEETLES_RISE: _beetles_rise,
    Cause.ROBBED: _robbed,
    Cause.PUT_OFF: _put_off,
}
