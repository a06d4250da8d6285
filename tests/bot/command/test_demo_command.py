"""The demo, played from its script."""

from freezegun import freeze_time

from scheduling.records.migrate import newest_version
from tests.bot.command.conftest import Yardbell


def test_it_plays_the_day_and_says_how_to_go_on(yardbell: Yardbell) -> None:
    shown = yardbell.good("demo")
    assert shown.startswith("Ada < Wed 12 May, River:\n")
    assert "\nMilo < Wed 12 May, River:\n" in shown
    assert shown.splitlines()[-1].startswith("That was an invented day.")


def test_every_line_of_its_script_is_understood(yardbell: Yardbell) -> None:
    shown = yardbell.good("demo")
    assert "?" not in shown
    assert "not understood" not in shown
    assert "Something went wrong" not in shown
    asked = [line for line in shown.splitlines() if " > " in line]
    assert len(asked) > 15


def test_it_says_the_same_each_time_and_in_any_year(yardbell: Yardbell) -> None:
    first = yardbell.good("demo")
    with freeze_time("2031-12-31 23:59"):
        assert yardbell.good("demo") == first


def test_it_touches_only_files_of_its_own(river: Yardbell) -> None:
    before = river.database.read_bytes()
    river.good("demo")
    assert river.database.read_bytes() == before
    files = {str(f.relative_to(river.folder)) for f in river.folder.rglob("*") if f.is_file()}
    ours = {"data/yardbell/demo.sqlite", f"data/yardbell/demo-{newest_version()}.sqlite"}
    assert files == {"bees.sqlite", *ours}
