"""The invite-crew command makes codes for founders, shows them, and withdraws them."""

import re

import pytest

from tests.bot.command.conftest import Yardbell


def made(yardbell: Yardbell) -> str:
    found = re.match(r"([A-Z0-9]{8}) good once, to ", yardbell.good("invite-crew"))
    assert found is not None
    return found[1]


def test_a_code_is_made_shown_and_withdrawn(yardbell: Yardbell) -> None:
    assert yardbell.good("invite-crew", "--list") == "no code is open\n"
    first, second = made(yardbell), made(yardbell)
    assert first != second

    assert {first, second} == {
        line.split()[0] for line in yardbell.good("invite-crew", "--list").splitlines()
    }
    assert yardbell.good("invite-crew", "--withdraw", first.lower()) == (
        f"{first} founds nothing any more\n"
    )
    assert yardbell.good("invite-crew", "--list").startswith(second)


def test_a_code_that_is_not_open_is_not_withdrawn(yardbell: Yardbell) -> None:
    assert "ABCD2345 is no open code" in yardbell("invite-crew", "--withdraw", "ABCD2345").complaint


@pytest.mark.parametrize("founding", ["nobody", "anybody"])
def test_where_codes_do_not_count_that_is_said(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch, founding: str
) -> None:
    monkeypatch.setenv("YARDBELL_CREWS_FOUNDED_BY", founding)
    said = yardbell("invite-crew")

    assert said.code == 0
    assert f"YARDBELL_CREWS_FOUNDED_BY is {founding}" in said.err


def test_the_terminal_founds_a_crew_whatever_is_set(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("YARDBELL_CREWS_FOUNDED_BY", "nobody")

    assert "Welcome Ada" in yardbell.chat("Ada", "begin")


def test_status_says_how_many_codes_are_open(river: Yardbell) -> None:
    made(river)

    assert "new crews  unknown till a program runs, 1 codes open" in river.good("status")
