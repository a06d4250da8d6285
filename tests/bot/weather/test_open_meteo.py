"""The real client against a service on this machine, in good and in bad days.

The form of question and answer is that of the service's documentation, https://open-meteo.com/en/docs:
parallel lists under ``hourly``, times without offset, nulls, 400 with a reason; rain and sunshine
are sums of the hour before.
"""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from bot.weather import open_meteo
from bot.weather.open_meteo import OpenMeteo
from bot.weather.refresh import NoWeatherError
from deploy.standins.weather_standin import (
    Answer,
    WeatherStandin,
    cut_off,
    hourly,
    late,
    says,
    trickling,
)
from scheduling.weather.hour import HourOfWeather

DAY = date(2027, 5, 12)
MIDNIGHT = datetime(2027, 5, 12, tzinfo=UTC)
GOOD = hourly(MIDNIGHT, 24)


def ask(client: OpenMeteo) -> list[HourOfWeather]:
    return client.hours(35.04563, -85.30968, DAY, DAY)


def test_a_fine_day_comes_as_twenty_four_hours(service: WeatherStandin, client: OpenMeteo) -> None:
    service.answers = [says(GOOD)]
    hours = ask(client)
    assert [hour.at.hour for hour in hours] == list(range(24))
    assert hours[0] == HourOfWeather(MIDNIGHT, 24.3, 7.9, 0.0, 0.2, 60.0, 48)


def test_the_place_is_told_to_a_kilometre_and_the_times_are_asked_for_in_utc(
    service: WeatherStandin, client: OpenMeteo
) -> None:
    service.answers = [says(GOOD)]
    ask(client)
    assert service.paths == ["/v1/forecast"]
    assert service.asked == [
        {
            "latitude": "35.05",
            "longitude": "-85.31",
            "hourly": "temperature_2m,wind_speed_10m,precipitation,cloud_cover,sunshine_duration,"
            "relative_humidity_2m",
            "timezone": "UTC",
            "start_date": "2027-05-12",
            "end_date": "2027-05-12",
        }
    ]


def test_a_key_is_sent_where_there_is_one(service: WeatherStandin) -> None:
    service.answers = [says(GOOD)]
    client = OpenMeteo(service.url, key="invented")
    ask(client)
    client.close()
    assert service.asked[0]["apikey"] == "invented"


def test_rain_and_sun_belong_to_the_hour_before_their_time(
    service: WeatherStandin, client: OpenMeteo
) -> None:
    service.answers = [
        says(hourly(MIDNIGHT, 3, precipitation=[9.0, 1.2, 0], sunshine_duration=[0, 600, 1800]))
    ]
    hours = ask(client)
    assert [hour.rain_mm for hour in hours] == [1.2, 0, None]
    assert [hour.sunshine_minutes for hour in hours] == [10, 30, None]


def test_null_is_not_known_and_not_nothing(service: WeatherStandin, client: OpenMeteo) -> None:
    service.answers = [says(hourly(MIDNIGHT, 2, wind_speed_10m=[None, 5], cloud_cover=[None, 0]))]
    first, second = ask(client)
    assert (first.wind_kmh, first.cloud_share) == (None, None)
    assert (second.wind_kmh, second.cloud_share) == (5, 0)


def without(name: str) -> dict[str, Any]:
    answer = hourly(MIDNIGHT, 2)
    del answer["hourly"][name]
    return answer


def in_fahrenheit() -> dict[str, Any]:
    answer = hourly(MIDNIGHT, 2)
    answer["hourly_units"]["temperature_2m"] = "\N{DEGREE SIGN}F"
    return answer


@pytest.mark.parametrize(
    "nonsense",
    [
        {},
        [],
        None,
        42,
        {"hourly": None, "hourly_units": None},
        without("cloud_cover"),
        without("time"),
        in_fahrenheit(),
        hourly(MIDNIGHT, 2, precipitation=[0]),
        hourly(MIDNIGHT, 2, temperature_2m=["warm", "warmer"]),
        hourly(MIDNIGHT, 2, temperature_2m=[True, False]),
        hourly(MIDNIGHT, 2, temperature_2m={"0": 1, "1": 2}),
        hourly(MIDNIGHT, 2, time=["yesterday", "today"]),
        hourly(MIDNIGHT, 2, time=[1, 2]),
    ],
)
def test_nonsense_is_no_weather(
    service: WeatherStandin, client: OpenMeteo, nonsense: object
) -> None:
    service.answers = [says(nonsense)]
    with pytest.raises(NoWeatherError, match="another form"):
        ask(client)
    assert len(service.asked) == 1


def test_a_refusal_is_told_with_the_server_s_reason_and_not_repeated(
    service: WeatherStandin, client: OpenMeteo
) -> None:
    refusal = {"error": True, "reason": "Cannot initialize WeatherVariable from 'sunshine'."}
    service.answers = [says(refusal, status=400)]
    with pytest.raises(NoWeatherError, match="refused with 400: Cannot initialize Weather"):
        ask(client)
    assert len(service.asked) == 1


def test_a_refusal_without_a_reason_is_told_too(service: WeatherStandin, client: OpenMeteo) -> None:
    service.answers = [says("<html>no</html>", status=404)]
    with pytest.raises(NoWeatherError, match=r"refused with 404$"):
        ask(client)


@pytest.mark.parametrize(
    ("header", "seconds"), [("60", 60.0), ("", None), ("Wed, 12 May 2027 12:00:00 GMT", None)]
)
def test_asked_too_often_it_says_how_long_to_wait(
    service: WeatherStandin, client: OpenMeteo, header: str, seconds: float | None
) -> None:
    service.answers = [says({"error": True}, 429, {"Retry-After": header} if header else None)]
    with pytest.raises(NoWeatherError, match="too often") as refused:
        ask(client)
    assert refused.value.wait_seconds == seconds
    assert len(service.asked) == 1


@pytest.mark.parametrize(
    "fault",
    [says("", 500), says("", 503), says("", 200), says('{"hourly": [', 200), cut_off(GOOD)],
    ids=["500", "503", "empty", "half a body", "hung up"],
)
def test_what_may_pass_is_asked_once_more_after_a_pause(
    service: WeatherStandin, client: OpenMeteo, pauses: list[float], fault: Answer
) -> None:
    service.answers = [fault, says(GOOD)]
    assert len(ask(client)) == 24
    assert pauses[0] == open_meteo.PAUSE_SECONDS


@pytest.mark.parametrize(
    ("fault", "said"),
    [
        (says("", 500), "at fault: 500"),
        (says("[", 200), "cut off"),
        (cut_off(GOOD), "RemoteProtocolError"),
        (late(0.8, GOOD), "ReadTimeout"),
    ],
)
def test_a_fault_that_stays_is_no_weather(
    service: WeatherStandin, client: OpenMeteo, fault: Answer, said: str
) -> None:
    service.answers = [fault]
    with pytest.raises(NoWeatherError, match=said):
        ask(client)
    assert len(service.asked) == open_meteo.TRIES


def test_nobody_there_is_no_weather(pauses: list[float]) -> None:
    client = OpenMeteo("http://127.0.0.1:9", timeout_seconds=0.5, pause=pauses.append)
    with pytest.raises(NoWeatherError, match="ConnectError"):
        ask(client)
    client.close()


def test_an_answer_without_end_is_given_up(service: WeatherStandin, client: OpenMeteo) -> None:
    service.answers = [trickling(3 * open_meteo.LONGEST_ANSWER)]
    with pytest.raises(NoWeatherError, match="too long"):
        ask(client)


def test_an_answer_that_trickles_in_is_given_up(
    service: WeatherStandin, client: OpenMeteo, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(open_meteo, "LONGEST_WAIT_SECONDS", 0.3)
    service.answers = [trickling(1_000_000, every=0.05)]
    with pytest.raises(NoWeatherError, match="takes too long"):
        ask(client)


def test_two_questions_keep_a_second_between_them(
    service: WeatherStandin, client: OpenMeteo, pauses: list[float]
) -> None:
    service.answers = [says(GOOD)]
    ask(client)
    assert pauses == []
    ask(client)
    assert pauses == [pytest.approx(open_meteo.GAP_SECONDS, abs=0.5)]
