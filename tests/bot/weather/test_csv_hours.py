"""Hours of weather from a file that a station at the yard writes; the hours are invented."""

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from bot.weather.csv_hours import CsvHours
from bot.weather.refresh import NoWeatherError
from scheduling.weather.hour import HourOfWeather

DAY = date(2027, 5, 12)


def file_of(folder: Path, text: str) -> Path:
    file = folder / "hours.csv"
    file.write_text(text, encoding="utf-8")
    return file


def hours_in(file: Path, first: date = DAY, last: date = DAY) -> list[HourOfWeather]:
    return CsvHours(file).hours(41.3, -92.6, first, last)


def test_an_empty_cell_and_a_missing_column_are_not_known(tmp_path: Path) -> None:
    file = file_of(
        tmp_path,
        "at,temperature_c,wind_kmh,rain_mm\n"
        "2027-05-12T14:00Z,21.5,8,0\n"
        "2027-05-12T11:00-04:00,22,,0.4\n",
    )
    assert hours_in(file) == [
        HourOfWeather(datetime(2027, 5, 12, 14, tzinfo=UTC), 21.5, 8, 0),
        HourOfWeather(datetime(2027, 5, 12, 15, tzinfo=UTC), 22, None, 0.4),
    ]


def test_only_the_days_asked_for_are_given(tmp_path: Path) -> None:
    rows = "".join(f"2027-05-{day}T23:00Z,20\n" for day in (11, 12, 13))
    file = file_of(tmp_path, f"at,temperature_c\n{rows}")
    assert [hour.at.day for hour in hours_in(file)] == [12]
    assert len(hours_in(file, date(2027, 5, 11), date(2027, 5, 13))) == 3


def test_a_file_saved_by_a_spreadsheet_is_read(tmp_path: Path) -> None:
    file = file_of(tmp_path, "\ufeffat,temperature_c\r\n2027-05-12T14:00Z,20\r\n")
    assert len(hours_in(file)) == 1


@pytest.mark.parametrize(
    "row", ["yesterday,20", "2027-05-12T14:00,20", "2027-05-12T15:00Z,warm", ",20"]
)
def test_a_bad_row_is_named_by_its_line(tmp_path: Path, row: str) -> None:
    file = file_of(tmp_path, f"at,temperature_c\n2027-05-12T13:00Z,20\n{row}\n")
    with pytest.raises(NoWeatherError, match="line 3"):
        hours_in(file)


def test_a_file_that_is_not_there_is_no_weather(tmp_path: Path) -> None:
    with pytest.raises(NoWeatherError, match="cannot be read"):
        hours_in(tmp_path / "none.csv")


def test_a_file_that_is_no_text_is_no_weather(tmp_path: Path) -> None:
    file = tmp_path / "hours.csv"
    file.write_bytes(b"at,\xff\xfe\x00")
    with pytest.raises(NoWeatherError, match="cannot be read"):
        hours_in(file)
