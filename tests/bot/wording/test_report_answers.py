"""Answers to replies from an invented yard."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from bot.channels.sms.segments import is_gsm7, segments
from bot.reading.result import Finding
from bot.wording.plain_letters import to_gsm7
from bot.wording.report_answers import answered, noted_by_another, undone
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import DayWeather, Feed, Flying, PutOff, Value

TODAY = date(2026, 5, 14)
RIVER = {"River": [UnitName(box, letter) for box in (4, 5) for letter in "abc"]}
BOTH = {**RIVER, "Hill": [UnitName(4, "a"), UnitName(4, "b")]}


def day(number: int) -> date:
    return TODAY + timedelta(days=number)


def found(
    unit: str, kind: EntryKind, value: Value | None = None, on: int = 0, yard: str = "River"
) -> Finding:
    return Finding(Place(yard, UnitName.parse(unit)), kind, value, day(on))


def check(unit: str, kind: CheckKind, cause: Cause, best: int) -> Check:
    place = Place("River", UnitName.parse(unit))
    return Check(place, kind, day(best), day(best), day(best + 3), Why(cause))


def rest(unit: str, to: int) -> Check:
    why = Why(Cause.MATURING_AND_MATING, about=day(to))
    return Check(Place("River", UnitName.parse(unit)), CheckKind.REST, day(1), None, day(to), why)


EGGS = [found(unit, EntryKind.EGGS) for unit in ("4a", "4b", "4c")]
BROOD = [
    check(unit, CheckKind.SEALED_BROOD, Cause.WORKER_BROOD_SEALS, 9) for unit in ("4a", "4b", "4c")
]


def test_what_was_understood_what_comes_and_how_to_take_it_back() -> None:
    checks = [*BROOD, check("5b", CheckKind.LAYING, Cause.NO_EGGS_YET, 7), rest("5b", 6)]
    message = answered([*EGGS, found("5b", EntryKind.NO_EGGS)], checks, [], TODAY, RIVER)
    assert message.text == (
        "Noted: 4 eggs; 5b no eggs.\n"
        "Next: look for eggs 5b Thu 21 May, leave alone to Wed; "
        "look for sealed brood 4 Sat 23 May.\n"
        "undo takes it back."
    )
    assert segments(message.text) == 1
    assert [[button.text for button in row] for row in message.buttons] == [["undo"]]


def test_good_parts_count_and_the_bad_one_is_asked_about() -> None:
    message = answered(EGGS, BROOD, ["No unit 9z. Which one?"], TODAY, RIVER)
    assert message.text.split("\n")[2] == "No unit 9z. Which one?"


def test_only_questions_note_nothing_and_offer_no_undo() -> None:
    message = answered([], [], ["Out of the cell or of the cage?"], TODAY, RIVER)
    assert message.text == "Out of the cell or of the cage?"
    assert message.buttons == ()


def test_another_day_is_named() -> None:
    message = answered([found("5b", EntryKind.EGGS, on=-1)], [], [], TODAY, RIVER)
    assert message.text.startswith("Noted: 5b eggs (Wed 13 May).")


def test_the_yard_is_named_when_there_are_several() -> None:
    told = [found("4a", EntryKind.EGGS), found("4a", EntryKind.NO_EGGS, yard="Hill")]
    message = answered(told, [], [], TODAY, BOTH)
    assert message.text.startswith("Noted: River 4a eggs; Hill 4a no eggs.")


def test_after_feeding_the_next_look_at_food_is_told() -> None:
    checks = [
        check("4a", CheckKind.LAYING, Cause.EGGS_EXPECTED, 2),
        check("4a", CheckKind.FEED, Cause.FOOD_LOOK, 7),
    ]
    message = answered([found("4a", EntryKind.FED, Feed(0.946))], checks, [], TODAY, RIVER)
    assert message.text.split("\n")[:2] == [
        "Noted: 4a fed 0.95 l syrup.",
        "Next: check food 4a Thu 21 May.",
    ]


def test_an_unanswered_forecast_is_not_what_comes_next() -> None:
    foreseen = Check(
        Place("River", UnitName(4, "a")),
        CheckKind.SEALED_BROOD,
        day(1),
        day(1),
        None,
        Why(Cause.WORKER_BROOD_SEALS),
        follows=CheckKind.LAYING,
    )
    checks = [foreseen, check("4a", CheckKind.LAYING, Cause.EGGS_EXPECTED, 2)]
    message = answered([found("4a", EntryKind.EMERGED)], checks, [], TODAY, RIVER)
    assert "Next: look for eggs 4a Sat." in message.text


def test_a_dead_unit_has_nothing_more_due() -> None:
    message = answered([found("4a", EntryKind.DEAD)], [], [], TODAY, RIVER)
    assert "Next: nothing more due 4a." in message.text


def test_a_put_off_names_its_own_day_only() -> None:
    told = [found("4b", EntryKind.PUT_OFF, PutOff(day(1)), on=0)]
    assert answered(told, [], [], TODAY, RIVER).text.startswith("Noted: 4b put off to Fri 15 May.")


def test_weather_is_noted_for_the_yard_with_the_first_thing_due_there() -> None:
    weather = Finding(Place("River"), EntryKind.WEATHER_SEEN, DayWeather(Flying.NOT_FLYING), TODAY)
    checks = [*BROOD, check("5b", CheckKind.LAYING, Cause.EGGS_DELAYED, 3)]
    message = answered([weather], checks, [], TODAY, RIVER)
    assert message.text.split("\n")[:2] == [
        "Noted: River no flying weather.",
        "Next: look for eggs 5b Sun.",
    ]


def test_a_correction_says_so() -> None:
    message = answered(EGGS, BROOD, [], TODAY, RIVER, corrects=True)
    assert message.text.startswith("Corrected: 4 eggs.")


def test_undo_says_what_it_took_back_and_what_is_due_again() -> None:
    checks = [check("5b", CheckKind.LAYING, Cause.EGGS_EXPECTED, -1)]
    assert undone([found("5b", EntryKind.EGGS)], checks, TODAY, RIVER) == (
        "Undone: 5b eggs. The log keeps both.\nNext: look for eggs 5b today."
    )


def test_the_partner_is_told_who_noted_it() -> None:
    assert noted_by_another("Pat", EGGS, TODAY, RIVER) == "Pat noted: 4 eggs."


def test_a_note_in_curly_quotes_is_made_plain() -> None:
    note = Finding(Place("River", UnitName(4, "b")), EntryKind.NOTE, None, TODAY, "don\u2019t lift")
    assert answered([note], [], [], TODAY, RIVER).text.startswith("Noted: 4b note: don't lift.")


@given(st.lists(st.sampled_from(EntryKind), min_size=1, max_size=6), st.text(max_size=20))
def test_any_answer_is_plain_as_far_as_the_keepers_own_words_are(
    kinds: list[EntryKind], yard: str
) -> None:
    name = f"Yard {yard.encode('ascii', 'ignore').decode()}".strip()
    units = [UnitName(4, letter) for letter in "abcdef"]
    told = [
        Finding(Place(name, unit), kind, None, TODAY)
        for unit, kind in zip(units, kinds, strict=False)
    ]
    text = answered(told, BROOD, [], TODAY, {name: units, "Hill": units}).text
    assert is_gsm7(text.replace(to_gsm7(name), ""))
    assert text.startswith("Noted: ")
    assert text.endswith("undo takes it back.")
