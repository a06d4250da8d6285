"""A talk at the terminal: lines piped in, answers printed."""

import pytest

from tests.bot.command.conftest import Yardbell


def answers(shown: str, name: str) -> list[str]:
    """What each letter to ``name`` begins with."""
    mark = f"{name} < "
    return [line.removeprefix(mark) for line in shown.splitlines() if line.startswith(mark)]


def test_a_talk_reads_as_it_was_held(river: Yardbell) -> None:
    shown = river.chat("Ada", "1a-c out", "", "  2 out  ", on="2027-05-04")
    lines = shown.splitlines()
    assert [line for line in lines if line.startswith("Ada > ")] == [
        "Ada > 1a-c out",
        "Ada > 2 out",
    ]
    assert lines[1] == "Ada < Noted: 1 out."
    assert lines[2].startswith("    < Next: ")


def test_the_other_day_is_the_day_of_the_talk(river: Yardbell) -> None:
    river.chat("Ada", "1a out", on="2027-05-04")
    assert "2027-05-04,River,1a,emerged" in river.good("export", "-")


def test_a_newcomer_is_told_how_to_begin_or_join(yardbell: Yardbell) -> None:
    welcome = answers(yardbell.chat("Ada", "hello"), "Ada")
    assert len(welcome) == 1
    assert "Type begin" in welcome[0]
    assert "join" in welcome[0]


@pytest.mark.parametrize("first", ["begin", "new yard River"])
def test_a_newcomer_begins_with_either_word(yardbell: Yardbell, first: str) -> None:
    yardbell.chat("Ada", first, "new yard Hill", "boxes 1-2 of 3", "10 day cell in 1a")
    assert "2027-05-01,Hill,1a,cell_placed,10,Ada" in yardbell.good("export", "-")


def test_a_partner_joins_with_the_code_and_both_see_one_log(river: Yardbell) -> None:
    code = river.chat("Ada", "invite").partition("join ")[2].split()[0]
    joined = answers(river.chat("Milo", f"join {code}"), "Milo")
    assert joined[0].startswith("Welcome Milo, you share the yards of Ada.")
    river.chat("Milo", "1a out", on="2027-05-04")
    assert "Milo noted: 1a out" in river.chat("Ada", "due", on="2027-05-04")


def test_what_waited_is_shown_when_the_talk_begins(river: Yardbell) -> None:
    code = river.chat("Ada", "invite").partition("join ")[2].split()[0]
    river.chat("Milo", f"join {code}")
    assert river.chat("Ada", on="2027-05-02") == "Ada < Milo joined your crew.\n"


def test_a_letter_to_another_is_not_shown_here(river: Yardbell) -> None:
    code = river.chat("Ada", "invite").partition("join ")[2].split()[0]
    assert answers(river.chat("Milo", f"join {code}"), "Ada") == []


def test_a_wrong_code_lets_nobody_in(river: Yardbell) -> None:
    assert "not good" in river.chat("Milo", "join AAAAAA")
    assert "known: Ada" in river("morning", "--for", "Milo").complaint


def test_nothing_typed_says_nothing(yardbell: Yardbell) -> None:
    assert yardbell.good("chat", "--as", "Ada") == ""


def test_the_last_line_needs_no_end(river: Yardbell) -> None:
    assert "Ada < " in river.good("chat", "--as", "Ada", typed="due")


@pytest.mark.parametrize(
    "line",
    [
        "boxes 0-3 of 3",
        "boxes 1-3 of 99",
        "morning 25:00",
        "zone Nowhere/Nothing",
        "location 999 9",
        "join AAAAAA",
        "new yard",
        f"new yard {'x' * 200}",
        "4z eggs",
        "\x00",
        "\ufffd",
        "x" * 5000,
    ],
)
def test_what_cannot_be_done_is_answered_and_the_talk_goes_on(river: Yardbell, line: str) -> None:
    shown = river.chat("Ada", line, "yards")
    assert "Something went wrong" not in shown
    assert answers(shown, "Ada")[-1] == "River: 1-3 (9 units)"


@pytest.mark.parametrize("name", ["", "  "])
def test_a_talk_needs_a_name(yardbell: Yardbell, name: str) -> None:
    assert "--as needs a name" in yardbell("chat", "--as", name).complaint
    assert not yardbell.database.exists()


def test_who_is_typing_must_be_said(yardbell: Yardbell) -> None:
    assert "--as" in yardbell("chat").complaint


def test_surplus_spaces_make_no_other_person(river: Yardbell) -> None:
    assert "River: 1-3 (9 units)" in river.good("chat", "--as", " Ada ", typed="yards\n")


def test_capitals_make_no_other_person(river: Yardbell) -> None:
    assert "River: 1-3 (9 units)" in river.chat("ada", "yards")
