"""What is said of people, roles, ways and data is plain and short."""

import json

import pytest

from bot.channels.sms.segments import is_gsm7, segments
from bot.wording import own_data_texts, people_texts
from scheduling.records.tables import Role

ONE_SEGMENT = [
    people_texts.remove_asked("Milo").text,
    people_texts.removed("Milo"),
    people_texts.no_such_person("Zed", ["Ada", "Milo"]),
    people_texts.that_is_you(),
    *(people_texts.role_set("Milo", role) for role in Role),
    *(people_texts.role_given(role, "Ada") for role in Role),
    people_texts.only_owner_left(),
    people_texts.has_no_way("Milo"),
    people_texts.hand_over_asked("Milo").text,
    people_texts.handed_over("Milo"),
    people_texts.leave_asked("Ada's crew").text,
    people_texts.you_left("Ada's crew"),
    people_texts.somebody_left("Zo\N{LATIN SMALL LETTER E WITH DIAERESIS}"),
    people_texts.way_removed("sms", "+12025550123", ["telegram", "mail"]),
    people_texts.no_such_way("sms", [("telegram", "5001"), ("sms", "+12025550123")]),
    people_texts.only_way(),
    own_data_texts.data_in_file(),
    own_data_texts.forget_asked().text,
    own_data_texts.hand_over_first("Ada's crew"),
    own_data_texts.forgotten(),
]


@pytest.mark.parametrize("text", ONE_SEGMENT)
def test_an_answer_takes_one_segment(text: str) -> None:
    assert is_gsm7(text)
    assert segments(text) == 1


@pytest.mark.parametrize("name", ["Ada", "Zo\N{LATIN SMALL LETTER E WITH DIAERESIS}"])
@pytest.mark.parametrize("most", [1, 3])
def test_data_in_parts_is_whole_and_each_part_fits(name: str, most: int) -> None:
    rows = [{"name": name, "text": "4b eggs {[|]} and more of it"} for _ in range(40)]
    data = json.dumps(rows, ensure_ascii=False, indent=1)
    parts = own_data_texts.data_in_parts(data, most)

    assert all(segments(part) <= most for part in parts)
    whole = "".join("".join(parts).split())
    assert whole.endswith("".join(data.split()))


def test_a_question_says_what_does_it_and_has_a_button_for_it() -> None:
    asked = people_texts.remove_asked("Milo")
    assert asked.text.endswith("To do it, type: remove Milo yes")
    assert [[button.text for button in row] for row in asked.buttons] == [["remove Milo yes"]]
