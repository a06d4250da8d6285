from datetime import date, time

import pytest

from bot.channels.sms.segments import is_gsm7, segments
from bot.settings.founding import Founding
from bot.wording import (
    codes,
    consent_texts,
    crew,
    help,  # noqa: A004 - the room's own name for its help
    new_way,
    set_up_texts,
    undo_texts,
)
from bot.wording.cautions import cautions
from scheduling.places import UnitName

BOXES = [UnitName(box, letter) for box in range(1, 13) for letter in "abc"]

GOLDEN = [
    (
        set_up_texts.yard_made("River", "America/Chicago"),
        "Yard River made, clock America/Chicago. Now its boxes, as in: boxes 1-12 of 3",
    ),
    (
        set_up_texts.yard_turned_to("River", 36),
        "Now at River, 36 units. What you send is about this yard.",
    ),
    (
        set_up_texts.yards_list({"River": BOXES, "Hill": []}),
        "River: 1-12 (36 units)\nHill: no boxes yet",
    ),
    (set_up_texts.yards_list({}), "No yard yet. Make one, as in: new yard River"),
    (
        set_up_texts.boxes_made("River", BOXES, BOXES),
        "River: 36 units added, 1-12. Tell me what goes in, as in: 10 day cell in 1a",
    ),
    (set_up_texts.boxes_made("River", [], BOXES), "River has these boxes already: 1-12."),
    (
        set_up_texts.box_is_divided_otherwise("River", 4, BOXES[9:12]),
        "Box 4 at River is 4a 4b 4c already. Nothing changed.",
    ),
    (
        set_up_texts.morning_set(time(6, 5), "America/Chicago"),
        "Morning message at 6:05, America/Chicago time. No message when nothing is due.",
    ),
    (
        set_up_texts.morning_set(time(11, 30), "America/Chicago", not_today=True),
        "Morning message at 11:30, America/Chicago time. The first comes tomorrow. "
        "No message when nothing is due.",
    ),
    (
        set_up_texts.zone_set("America/Chicago", time(14, 20)),
        "Clock set to America/Chicago. It is 14:20 there now.",
    ),
    (
        set_up_texts.zone_unknown("Chicagoo", ["America/Chicago"]),
        "No time zone Chicagoo. Did you mean America/Chicago? Write it as in: zone America/Chicago",
    ),
    (set_up_texts.zone_unknown("Mars"), "No time zone Mars. Write it as in: zone America/Chicago"),
    (
        set_up_texts.location_set("River", 41.3, -92.6),
        "River is at 41.3000, -92.6000. undo takes it back.",
    ),
    (set_up_texts.feeder_set(1.892), "One feeder is 1.89 l: 'fed 4a one jar' counts that."),
    (
        set_up_texts.which_yard(["River", "Hill"], "boxes 1-12 of 3"),
        "Which yard: River or Hill? Say it first, as in: River boxes 1-12 of 3",
    ),
    (
        crew.invited("ABC234", date(2026, 5, 28)),
        "Your partner sends me: join ABC234\n"
        "Good once, to Thu 28 May. Give it only to somebody you trust with your yards.",
    ),
    (
        crew.crew_joined("Pat", ["Sam"], ["River", "Hill"]),
        "Welcome Pat, you share the yards of Sam. Yards: River, Hill. "
        "You both see what either notes. Type due for today, help for the rest.",
    ),
    (crew.partner_joined("Pat"), "Pat joined your crew."),
    (
        crew.already_in_a_crew(["Sam", "Pat", "Kim"]),
        "You are in a crew already with Sam, Pat and Kim. Nothing changed.",
    ),
    (
        codes.open_codes(
            [
                codes.OpenCode("ABC234", date(2026, 5, 28), own=False),
                codes.OpenCode("DEF567", date(2026, 5, 29), own=True),
            ]
        ),
        "ABC234 for a partner, to Thu 28 May\nDEF567 for a way of your own, to Fri 29 May\n"
        "To end one: withdraw ABC234",
    ),
    (codes.withdrawn("ABC234"), "Withdrawn: ABC234 lets nobody in any more."),
    (
        codes.no_such_code("XYZ234"),
        "XYZ234 is no open code of yours. Type codes to see them.",
    ),
    (
        new_way.way_added("telegram"),
        "Telegram was added as a way to reach you. Was it not you? Type: remove chat",
    ),
    (
        new_way.way_added("sms"),
        "Text was added as a way to reach you. Was it not you? Type: remove number",
    ),
    (
        new_way.way_added("mail"),
        "E-mail was added as a way to reach you. Was it not you? Type: remove mail",
    ),
    (crew.only_the_owner("Sam"), "Only Sam can do that. Nothing changed."),
    (
        crew.crew_list(
            [crew.Member("Sam", "owner", time(6, 30)), crew.Member("Pat", "keeper", stopped=True)]
        ),
        "Sam (owner), morning 6:30\nPat (keeper), stopped",
    ),
    (
        crew.started(time(6, 30)),
        "Started. Next morning message at 6:30, when something is due.",
    ),
]

FIXED = [
    set_up_texts.no_yard(),
    *(crew.welcome(founding) for founding in Founding),
    *(codes.founding_refused(founding) for founding in Founding),
    crew.begun("Sam"),
    crew.invited("ABC234", date(2026, 5, 28), "https://t.me/invented_bot?start=ABC234"),
    codes.code_refused(),
    codes.too_often(),
    codes.many_wrong(20),
    new_way.another_number(),
    *(consent_texts.stranger(founding) for founding in Founding),
    consent_texts.no_mobile("+19005550100"),
    consent_texts.other_land(("US", "CA")),
    consent_texts.other_land(()),
    consent_texts.asked_enough_today(),
    consent_texts.all_asked_enough_today(),
    crew.only_watching(),
    crew.stopped(),
    undo_texts.nothing_to_undo(),
    help.too_long(),
    help.text_only(),
    help.nothing_more(),
    help.went_wrong(),
]


@pytest.mark.parametrize(("text", "expected"), GOLDEN)
def test_the_words_of_an_answer(text: str, expected: str) -> None:
    assert text == expected


@pytest.mark.parametrize("text", [*(text for text, _ in GOLDEN), *FIXED])
def test_an_answer_is_plain_and_takes_two_segments_at_most(text: str) -> None:
    assert is_gsm7(text)
    assert 1 <= segments(text) <= 2


def test_help_takes_three_segments_at_most() -> None:
    assert is_gsm7(help.help_words())
    assert segments(help.help_words()) <= 3


def test_the_caution_takes_five_segments_at_most() -> None:
    assert is_gsm7(cautions())
    assert segments(cautions()) <= 5


@pytest.mark.parametrize(
    "subject",
    ["Stings", "emergency number", "Heat", "Lifting", "Smoker", "label", "inspector", "doctor"],
)
def test_the_caution_names_every_danger_and_whom_to_ask(subject: str) -> None:
    assert subject in cautions()


def test_a_name_with_accents_is_made_plain() -> None:
    assert crew.partner_joined("Zoë Łuk") == "Zoe Luk joined your crew."
