"""The log out and in as a file. All people, yards and rows are invented."""

import csv
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from freezegun import freeze_time

from tests.bot.command.conftest import Yardbell

HEADER = "on,yard,unit,kind,value,person,note\n"

SEASON = HEADER + (
    "2027-05-01,River,1a,made_up,brood_frames=1; food_frames=1,Ada,\n"
    "2027-05-01,River,1a,cell_placed,14e,Ada,\n"
    '2027-05-04,River,1a,emerged,,Zoë,"gentle, ""yellow"" bees"\n'
    "2027-05-20,River,1a,fed,syrup_litres=0.95; ratio=1:1,Ada,\n"
)


def season(yardbell: Yardbell, text: str = SEASON, name: str = "season.csv") -> str:
    file = yardbell.folder / name
    file.write_bytes(text.encode())
    return str(file)


def table(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(text.splitlines()))


def test_into_an_empty_database_comes_a_crew_with_all_it_speaks_of(yardbell: Yardbell) -> None:
    assert yardbell.good("import", season(yardbell)) == (
        "4 entries added, 0 there already\nnew yards: River\nnew units: River 1a\nnew people: Zoë\n"
    )
    rows = table(yardbell.good("export", "-"))
    keepers = HEADER.strip().split(",")
    assert [[row[c] for c in keepers] for row in rows] == list(csv.reader(SEASON.splitlines()))[1:]


def test_who_was_imported_is_known_at_the_terminal(yardbell: Yardbell) -> None:
    yardbell.good("import", season(yardbell))
    for name in ("Ada", "Zoë"):
        assert f"{name} < River: 1 (1 unit)" in yardbell.chat(name, "yards")


def test_the_round_trip_is_exact(river: Yardbell) -> None:
    river.chat("Ada", "1a-c out, 2a dud", "undo", "1a note temper, bad", "fed 2a 1 quart")
    first, second = river.folder / "one.csv", river.folder / "two.csv"
    river.good("export", str(first))
    other = f"sqlite:///{river.folder / 'other.sqlite'}"
    river.good("--database", other, "import", str(first))
    river.good("--database", other, "export", str(second))
    assert second.read_bytes() == first.read_bytes()


def test_the_terminal_gets_the_same_bytes_as_a_file(river: Yardbell) -> None:
    file = river.folder / "one.csv"
    river.good("export", str(file))
    assert river.good("export", "-").encode() == file.read_bytes()


def test_importing_twice_adds_nothing(yardbell: Yardbell) -> None:
    file = season(yardbell)
    yardbell.good("import", file)
    before = yardbell.good("export", "-")
    with freeze_time("2030-01-01"):
        assert yardbell.good("import", file) == "0 entries added, 4 there already\n"
    assert yardbell.good("export", "-") == before


def test_a_bad_row_is_named_by_file_and_line_and_nothing_is_imported(yardbell: Yardbell) -> None:
    file = season(
        yardbell, SEASON + "2027-05-32,River,1a,eggs,,Ada,\n2027-05-21,River,1z,eggs,,,\n"
    )
    said = yardbell("import", file).complaint
    assert said.startswith(f"{file}: line 6: ")
    assert "; line 7: " in said
    assert said.endswith("; nothing imported")
    assert not yardbell.database.exists()


def test_of_many_bad_rows_the_first_are_named_and_the_rest_counted(yardbell: Yardbell) -> None:
    said = yardbell("import", season(yardbell, HEADER + "x,River,1a,eggs,,Ada,\n" * 40)).complaint
    assert said.count("line ") == 5
    assert "; and 35 more; nothing imported" in said


def test_a_bad_row_adds_nothing_to_a_log_that_is_there(river: Yardbell) -> None:
    before = river.good("export", "-")
    river("import", season(river, SEASON + "2027-05-21,River,1a,egs,,Ada,\n"))
    assert river.good("export", "-") == before


@pytest.mark.parametrize("text", ["", "\n", "on,yard\n", "\ufeff", "a;b;c\n1;2;3\n"])
def test_a_file_without_our_columns_is_refused(yardbell: Yardbell, text: str) -> None:
    assert ": line 1: " in yardbell("import", season(yardbell, text)).complaint


def test_a_file_in_other_letters_is_refused(yardbell: Yardbell) -> None:
    file = yardbell.folder / "latin.csv"
    file.write_bytes(SEASON.encode("latin-1"))
    assert "line 4: is not UTF-8" in yardbell("import", str(file)).complaint


def test_a_file_without_rows_founds_no_crew(yardbell: Yardbell) -> None:
    assert "no entries" in yardbell("import", season(yardbell, HEADER)).complaint
    assert "nobody is in this database yet" in yardbell("export", "-").complaint


def test_a_crew_without_a_name_is_not_founded(yardbell: Yardbell) -> None:
    assert "nothing imported" in yardbell("import", season(yardbell), "--for", " ").complaint


def test_a_file_that_is_not_there(yardbell: Yardbell) -> None:
    assert "nowhere.csv cannot be read: No such file" in yardbell("import", "nowhere.csv").complaint
    assert "is a directory" in yardbell("import", str(yardbell.folder)).complaint


def test_a_place_that_cannot_be_written(river: Yardbell) -> None:
    missing = Path("nowhere") / "bees.csv"
    assert f"{missing} cannot be written: No such" in river("export", str(missing)).complaint
    assert "cannot be written" in river("export", str(river.folder)).complaint


def test_nobody_has_a_log_in_an_empty_database(yardbell: Yardbell) -> None:
    said = yardbell("export", "bees.csv").complaint
    where = f"sqlite:///{yardbell.database}"
    assert said == (f"nobody is in this database yet: {where}; begin with: yardbell chat --as NAME")
    assert list(yardbell.folder.iterdir()) == []


def test_of_several_crews_one_must_be_named(river: Yardbell) -> None:
    river.chat("Noor", "new yard Hill", "boxes 9 of 3")
    file = season(river)
    assert "--for NAME" in river("export", "-").complaint
    assert "--for NAME" in river("import", file).complaint
    river.good("import", file, "--for", "Noor")
    # There is an Ada in both crews now; the one who types here is meant.
    assert {row["on"] for row in table(river.good("export", "-", "--for", "Ada"))} == {"2027-05-01"}
    assert len(table(river.good("export", "-", "--for", "noor"))) == 4


def test_a_file_that_would_break_the_crew_is_refused_and_its_line_named(river: Yardbell) -> None:
    file = season(river, HEADER + "9999-12-31,River,1a,eggs,,Ada,\n")
    assert river("import", file).complaint == (
        f"{file}: line 2: on must be from 2000-01-01 to {last_day()}, not 9999-12-31; "
        "nothing imported"
    )
    assert river.good("check") == "all is well\n"


def last_day() -> date:
    return (datetime.now(UTC) + timedelta(days=730)).date()


def test_nothing_that_is_printed_moves_the_cursor(yardbell: Yardbell) -> None:
    text = SEASON + "2027-05-21,\x1b[2JHill\u202e,1a,note,,Bo\x07,\x1b[31mred\n"
    said = yardbell.good("import", season(yardbell, text))
    said += yardbell.good("export", "-", "--for", "Ada") + yardbell.chat("Ada", "yards", "hill 1a")

    assert "[2JHill" in said
    assert not {"\x1b", "\x07", "\u202e"} & set(said)
