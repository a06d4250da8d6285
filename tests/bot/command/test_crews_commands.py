"""Whoever runs the machine lists crews, tells them apart by number, and lets them go."""

import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import open_engine, writing
from tests.bot.command.conftest import Yardbell


@pytest.fixture
def two(river: Yardbell) -> Yardbell:
    """Two crews whose only keeper is called Ada: River's, and one that came from a file."""
    river.chat("Bea", "begin", "new yard Hill", "boxes 1-2 of 3", "1a eggs")
    code = river.chat("Bea", "invite").split("join ")[1][:6]
    river.chat("Milo", f"join {code}", "1b eggs")
    return river


@pytest.fixture
def namesakes(river: Yardbell) -> Yardbell:
    """Beside Ada's crew another one, whose only keeper is an Ada too, with the yard Hill."""
    engine = open_engine(f"sqlite:///{river.database}")
    with writing(engine) as session:
        since = datetime(2027, 5, 1, tzinfo=UTC)
        crew, _ada = found_crew(session, "Ada's crew", "Ada", "UTC", since)
        CrewRecords(session, crew.id).add_yard("Hill", "UTC")
    engine.dispose()
    return river


def test_each_crew_is_listed_with_its_number_people_yards_and_entries(two: Yardbell) -> None:
    first, second = two.good("crews").splitlines()

    assert first.startswith("    1  Ada's crew: Ada (owner); River 9 units, 6 entries, the last ")
    assert second.startswith(
        "    2  Bea's crew: Bea (owner), Milo (keeper); Hill 6 units, 2 entries, the last "
    )


def test_before_anybody_is_there(yardbell: Yardbell) -> None:
    assert "nobody is in this database yet" in yardbell("crews").complaint
    assert "nobody is in this database yet" in yardbell("crew", "1").complaint


def test_one_crew_is_shown_with_where_its_people_are_reached(two: Yardbell) -> None:
    lines = two.good("crew", "2").splitlines()

    assert lines[1].startswith("       Bea (owner): console Bea; since ")
    assert lines[2].startswith("       Milo (keeper): console Milo; since ")


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (("crew", "7"), "there is no crew 7; yardbell crews lists them"),
        (("crew", "2", "remove"), "nobody in this crew is called ?; there are: Bea, Milo"),
        (("crew", "2", "remove", "Zed"), "nobody in this crew is called Zed; there are: Bea, Milo"),
        (("crew", "2", "sell"), "sell is not known; one of: data, owner, keeper, watcher, remove, "
         "forget, delete"),
        (("crew", "2", "delete"), "delete crew 2: this cannot be undone; add --yes to do it"),
        (("crew", "2", "forget", "Milo"), "forget Milo: this cannot be undone; add --yes to do it"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_said_in_a_line(
    two: Yardbell, words: tuple[str, ...], complaint: str
) -> None:
    before = two.good("crews")
    assert two(*words).complaint == complaint
    assert two.good("crews") == before


def test_the_data_of_a_person_is_printed(two: Yardbell) -> None:
    told = json.loads(two.good("crew", "2", "data", "Milo"))

    assert [row["name"] for row in told["person"]] == ["Milo"]
    assert [row["unit"] for row in told["entry"]] == ["1b"]


def test_a_person_is_let_out_and_another_made_owner(two: Yardbell) -> None:
    assert two.good("crew", "2", "owner", "milo") == "Milo is owner now\n"
    assert two.good("crew", "2", "remove", "Bea") == (
        "Bea is out of the crew; the entries keep the name\n"
    )
    assert "2  Bea's crew: Milo (owner); Hill" in two.good("crews")
    assert "Bea" in two.good("export", "-", "--crew", "2")


def test_a_person_is_forgotten(two: Yardbell) -> None:
    two.good("crew", "2", "forget", "Bea", "--yes")

    assert "Bea" not in two.good("export", "-", "--crew", "2")
    assert b"Bea" not in database_of(two)


def database_of(yardbell: Yardbell) -> bytes:
    """What the database's file holds, as a backup has it."""
    copy = yardbell.folder / "copy.sqlite"
    yardbell.good("backup", str(copy))
    return Path(copy).read_bytes()


def test_a_crew_is_deleted_wholly_and_the_other_stays(two: Yardbell) -> None:
    first = two.good("crews").splitlines()[0]
    assert two.good("crew", "2", "delete", "--yes").startswith("deleted:    2  Bea's crew")

    assert two.good("crews").splitlines() == [first]
    assert "well" in two.good("check")
    left = database_of(two)
    assert b"Hill" not in left
    assert b"Milo" not in left


def test_two_crews_with_people_of_the_same_name_are_told_apart_by_number(
    namesakes: Yardbell,
) -> None:
    first, second = namesakes.good("crews").splitlines()
    assert ("River" in first, "Hill" in second) == (True, True)
    file = namesakes.folder / "hill.csv"
    file.write_text("on,yard,unit,kind,value,person,note\n2027-05-02,Hill,2a,eggs,,Ada,\n")
    assert "1 entries added" in namesakes.good("import", str(file), "--crew", "2")

    assert "Hill" not in namesakes.good("export", "-", "--crew", "1")
    assert "Hill,2a" in namesakes.good("export", "-", "--for", "Ada", "--crew", "2")
    read = namesakes.good("read", "--crew", "2", "2a eggs", "--json")
    assert '"2a"' in read
    assert "No unit" in namesakes.good("read", "--crew", "1", "9a eggs", "--json")
    assert "there is no crew 9" in namesakes("export", "-", "--crew", "9").complaint


def test_without_a_number_it_is_said_how_to_give_one(namesakes: Yardbell) -> None:
    complaint = namesakes("export", "-").complaint
    assert complaint == "this database has several crews; say whose with --for NAME or --crew N"
