"""The weather in a morning: what waits, heat, flying weather, and no weather at all."""

from dataclasses import replace
from datetime import date, timedelta

from bot.channels.sms.segments import segments
from bot.wording.groups import Detail, YardDay
from bot.wording.morning_message import due_message, morning_message
from bot.wording.plain_letters import to_gsm7
from bot.wording.yard_lines import weather_words
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.places import Place, UnitName
from scheduling.visits import Waiting
from scheduling.weather.fit_hours import Unfit
from scheduling.weather.heat import ColonyHeat, HeatBand
from scheduling.weather.yard_weather import Warnings

TODAY = date(2027, 5, 12)  # a Wednesday
UNITS = tuple(UnitName(4, letter) for letter in "abc")
HOT = Warnings(
    colonies=ColonyHeat.SHADE_AND_WATER, keeper=HeatBand.DANGER, warmest_c=34, heat_index_f=107
)


def look(letter: str, best: date = TODAY) -> Check:
    place = Place("River", UnitName(4, letter))
    why = Why(Cause.EGGS_EXPECTED, about=best)
    return Check(place, CheckKind.LAYING, best, best, best + timedelta(days=2), why)


def waiting(letter: str, best: date = TODAY) -> Waiting:
    return Waiting(look(letter, best), TODAY + timedelta(days=2), Unfit.COLD)


def resting() -> Check:
    why = Why(Cause.MATURING_AND_MATING)
    return Check(Place("River", UnitName(4, "c")), CheckKind.REST, TODAY, None, TODAY, why)


def test_what_waits_is_said_with_its_day_and_reason() -> None:
    day = YardDay("River", (look("c"),), units=UNITS, waiting=(waiting("a"), waiting("b")))
    message = morning_message([day], TODAY)
    assert message is not None
    assert "Too cold to open, so Fri: 4ab" in message.text
    assert "Look for eggs 4c" in message.text


def test_work_that_should_have_been_done_today_is_told_of_even_when_all_of_it_waits() -> None:
    message = morning_message([YardDay("River", (), units=UNITS, waiting=(waiting("a"),))], TODAY)
    assert message is not None
    assert message.text.startswith("Wed 12 May, River:\nToo cold to open, so Fri: 4a")
    assert message.buttons == ()


def test_on_the_second_day_of_waiting_nothing_new_is_said_unless_asked() -> None:
    waits = waiting("a", TODAY - timedelta(days=1))
    day = YardDay("River", (), units=UNITS, waiting=(waits,))
    assert morning_message([day], TODAY) is None
    assert "Too cold to open, so Fri: 4a" in due_message([day], TODAY).text


def test_a_yard_is_answered_once() -> None:
    day = YardDay("River", (), units=UNITS, waiting=(waiting("a"),))
    assert due_message([day], TODAY).text.count("4a") == 1


def test_heat_is_said_in_both_scales() -> None:
    day = YardDay("River", (look("a"),), units=UNITS, warnings=HOT)
    assert weather_words(day, TODAY, Detail.FULL) == [
        "Dangerous heat, feels like 107 F (42 C): at dawn or not at all, never alone",
        "93 F (34 C): shade, water, screened floors open",
    ]


def test_less_heat_takes_milder_words_and_a_warm_day_none() -> None:
    mild = Warnings(keeper=HeatBand.EXTREME_CAUTION, heat_index_f=95)
    day = YardDay("River", (), warnings=mild)
    assert weather_words(day, TODAY, Detail.FULL) == [
        "Heat feels like 95 F (35 C): go early, drink, rest in shade"
    ]
    warm = replace(day, warnings=Warnings(keeper=HeatBand.CAUTION, heat_index_f=85))
    assert weather_words(warm, TODAY, Detail.FULL) == []


def test_in_the_worst_heat_bees_may_leave() -> None:
    hottest = Warnings(colonies=ColonyHeat.MAY_ABSCOND, warmest_c=39)
    (words,) = weather_words(YardDay("River", (), warnings=hottest), TODAY, Detail.LEAST)
    assert words == "102 F (39 C): shade, water, screened floors open; bees may leave their boxes"


def test_flying_weather_is_told_where_queens_wait_for_it_and_there_is_room() -> None:
    def words(hours: float, detail: Detail = Detail.FULL) -> list[str]:
        day = YardDay("River", (), rests=(resting(),), warnings=Warnings(flight_hours=hours))
        return weather_words(day, TODAY, detail)

    assert words(3.4) == ["Flying weather 3 h"]
    assert words(0.2) == ["No flying weather"]
    assert words(3.4, Detail.BRIEF) == []
    without_queens = YardDay("River", (), warnings=Warnings(flight_hours=3))
    assert weather_words(without_queens, TODAY, Detail.FULL) == []


def test_no_weather_is_said_with_its_day() -> None:
    lost = Warnings(none_since=date(2027, 5, 9))
    day = YardDay("River", (look("a"),), units=UNITS, warnings=lost)
    assert weather_words(day, TODAY, Detail.LEAST) == ["No weather since Sun"]


def test_all_of_it_is_plain_text_and_a_dozen_units_still_fit_two_segments() -> None:
    units = tuple(UnitName(box, letter) for box in (4, 5, 6, 7) for letter in "abc")
    looks = tuple(look("a")._replace(place=Place("River", unit)) for unit in units[:8])
    waits = tuple(
        Waiting(
            look("a")._replace(place=Place("River", unit)), TODAY + timedelta(days=1), Unfit.WET
        )
        for unit in units[8:]
    )
    everything = replace(HOT, none_since=date(2027, 5, 9), flight_hours=2)
    message = morning_message([YardDay("River", looks, (), units, None, waits, everything)], TODAY)
    assert message is not None
    assert all(to_gsm7(part) == part for part in message.parts)
    assert segments(message.text) <= 2
