"""What we tell people to type must be read as we mean it."""

from datetime import date
from itertools import product

import pytest

from bot.channels.sms.segments import segments
from bot.reading.reader import read
from bot.reading.situation import Situation, YardUnits
from bot.wording.check_names import CHECK_WORDS
from bot.wording.help import help_words
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName

TODAY = date(2026, 5, 14)
UNITS = tuple(UnitName(box, letter) for box in range(1, 10) for letter in "abc")
RIVER, HILL = YardUnits("River", UNITS), YardUnits("Hill", UNITS)

MEANT: dict[str, EntryKind] = {
    "{} out": EntryKind.EMERGED,
    "{} not out": EntryKind.NOT_EMERGED,
    "{} released": EntryKind.RELEASED,
    "{} still caged": EntryKind.STILL_CAGED,
    "{} eggs": EntryKind.EGGS,
    "{} no eggs": EntryKind.NO_EGGS,
    "{} good brood": EntryKind.SEALED_BROOD,
    "{} spotty": EntryKind.SEALED_BROOD,
    "cell in {}": EntryKind.CELL_PLACED,
    "brood added {}": EntryKind.BROOD_ADDED,
    "sold queen {}": EntryKind.QUEEN_TAKEN,
    "fed {}": EntryKind.FED,
    "trap {}": EntryKind.TRAP_SERVICED,
}
NAMED = {"4a": 1, "4ac": 2, "1 2ab": 5, "1-3": 9, "1b-4a": 9, "5a-c 6b": 4}
OFFERED = [(kind, outcome) for kind, words in CHECK_WORDS.items() for outcome in words.replies]


def situation(kind: CheckKind, *yards: YardUnits) -> Situation:
    return Situation(
        TODAY,
        yards,
        yards[0].name if len(yards) == 1 else None,
        lambda: {Place(yard.name, unit): (kind,) for yard in yards for unit in yard.units},
    )


@pytest.mark.parametrize(("offered", "names"), list(product(OFFERED, NAMED)))
@pytest.mark.parametrize("yards", [(RIVER,), (RIVER, HILL)])
def test_every_example_and_button_is_read_as_meant(
    offered: tuple[CheckKind, str], names: str, yards: tuple[YardUnits, ...]
) -> None:
    kind, outcome = offered
    text = outcome.format(f"Hill {names}" if len(yards) > 1 else names)
    reading = read(text, situation(kind, *yards))
    assert reading.questions == ()
    assert {finding.kind for finding in reading.findings} == {MEANT[outcome]}
    assert len(reading.findings) == NAMED[names]
    assert {finding.place.yard for finding in reading.findings} == {yards[-1].name}


def help_examples() -> list[str]:
    """Every reply and command that help shows, each for itself."""
    lines = [line.rpartition(": ")[2] for line in help_words().split("\n")]
    asked = [part.strip() for line in lines[1:] for part in line.replace(";", ",").split(",")]
    return [lines[0], *asked]


@pytest.mark.parametrize("text", help_examples())
def test_what_help_shows_is_understood(text: str) -> None:
    complete = {"new yard": "new yard Hill", "zone": "zone America/Chicago"}.get(text, text)
    reading = read(complete, situation(CheckKind.EMERGENCE, RIVER))
    assert reading.questions == ()
    assert reading.findings or reading.command


def test_help_has_the_length_that_was_read() -> None:
    assert len(help_examples()) > 20
    assert segments(help_words()) <= 3
