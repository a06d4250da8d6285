"""Places of one yard in words: units in short form, batches by the day they were grafted."""

from collections.abc import Iterable
from datetime import date

from bot.wording.days import full_day
from bot.wording.unit_names import compact
from scheduling.places import Place, UnitName


def place_words(places: Iterable[Place], yard_units: Iterable[UnitName] = ()) -> str:
    """Write ``4a-c 6b`` or ``batch Sat 2 May``; a yard as a whole by its name."""
    known = set(places)
    units = [place.unit for place in known if place.unit is not None]
    batches = sorted(place.batch for place in known if place.batch is not None)
    yards = sorted({place.yard for place in known if place.unit is None and place.batch is None})
    pieces = [compact(units, yard_units), *map(batch_words, batches), *yards]
    return " ".join(piece for piece in pieces if piece)


def batch_words(batch: str) -> str:
    """Name a batch by its graft day if that is its name: ``batch Sat 2 May``."""
    try:
        return f"batch {full_day(date.fromisoformat(batch))}"
    except ValueError:
        return f"batch {batch}"
