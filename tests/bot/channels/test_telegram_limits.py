"""Texts, buttons, menus and waits keep within what Telegram takes."""

import ssl

import httpx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from telegram.error import BadRequest, NetworkError, TelegramError, TimedOut

from bot.channels.channel import Button, SendResult
from bot.channels.telegram.message_limits import command_menu, keyboard, split_text
from bot.channels.telegram.retry import tls
from bot.channels.telegram.telegram_outcome import outcome_of

TEXTS = st.text(alphabet=st.sampled_from("ab4 \n\u00e9\U0001f41d"), max_size=120)
BUTTONS = st.builds(Button, st.text(max_size=5), st.text(max_size=70))


def utf16_units(text: str) -> int:
    return len(text.encode("utf-16-le")) // 2


def test_a_list_of_units_is_cut_at_line_ends() -> None:
    assert split_text("4a eggs\n4b none\n4c dud", 16) == ("4a eggs\n4b none", "4c dud")


def test_a_long_line_is_cut_between_words_and_a_long_word_where_it_must_be() -> None:
    assert split_text("leave 4b alone", 9) == ("leave 4b", "alone")
    assert split_text("abcdefgh", 3) == ("abc", "def", "gh")


def test_a_bee_beyond_the_basic_plane_counts_twice() -> None:
    assert split_text("\U0001f41d" * 3, 4) == ("\U0001f41d" * 2, "\U0001f41d")


@pytest.mark.parametrize("blank", ["", " ", "\n \n"])
def test_a_blank_text_has_no_part(blank: str) -> None:
    assert split_text(blank) == ()


@given(TEXTS, st.integers(2, 40))
def test_every_part_fits_and_no_word_is_lost(text: str, units: int) -> None:
    parts = split_text(text, units)
    assert all(1 <= utf16_units(part) <= units for part in parts)
    assert all(part == part.strip() for part in parts)
    assert "".join("".join(parts).split()) == "".join(text.split())


@given(st.lists(st.lists(BUTTONS, max_size=20).map(tuple), max_size=12).map(tuple))
def test_every_keyboard_is_one_that_telegram_takes(rows: tuple[tuple[Button, ...], ...]) -> None:
    made = keyboard(rows)
    sound = [b for row in rows for b in row if b.label.strip() and 1 <= len(b.text.encode()) <= 64]
    if made is None:
        assert not sound
        return
    laid = made.inline_keyboard
    assert all(1 <= len(row) <= 8 for row in laid)
    assert [b.callback_data for row in laid for b in row] == [b.text for b in sound[:100]]


@pytest.mark.parametrize(
    ("name", "description"),
    [("Due", "capital"), ("/due", "slash"), ("", "empty"), ("d" * 33, "long"), ("due", ""),
     ("due", "x" * 257)],
)  # fmt: skip
def test_a_menu_that_telegram_would_refuse_is_refused_at_once(name: str, description: str) -> None:
    with pytest.raises(ValueError, match="command"):
        command_menu({name: description})


def test_a_menu_holds_at_most_a_hundred_commands() -> None:
    many = {f"unit{number}": "its story" for number in range(101)}
    with pytest.raises(ValueError, match="100 commands"):
        command_menu(many)


def caused(error: TelegramError, cause: Exception) -> TelegramError:
    error.__cause__ = cause
    return error


@pytest.mark.parametrize(
    ("error", "result"),
    [
        (caused(TimedOut(), httpx.ConnectTimeout("")), SendResult.LATER),
        (caused(TimedOut(), httpx.PoolTimeout("")), SendResult.LATER),
        (caused(NetworkError("none"), httpx.ConnectError("")), SendResult.LATER),
        (caused(NetworkError("none"), httpx.ProxyError("")), SendResult.LATER),
        (caused(NetworkError("none"), httpx.UnsupportedProtocol("")), SendResult.LATER),
        (caused(NetworkError("none"), httpx.InvalidURL("")), SendResult.LATER),
        (caused(TimedOut(), httpx.ReadTimeout("")), SendResult.UNKNOWN),
        (caused(TimedOut(), httpx.WriteTimeout("")), SendResult.UNKNOWN),
        (caused(NetworkError("cut"), httpx.ReadError("")), SendResult.UNKNOWN),
        (caused(NetworkError("cut"), httpx.WriteError("")), SendResult.UNKNOWN),
        (caused(NetworkError("cut"), httpx.RemoteProtocolError("")), SendResult.UNKNOWN),
        (caused(NetworkError("odd"), OSError()), SendResult.UNKNOWN),
        (BadRequest("Chat not found"), SendResult.UNREACHABLE),
        (TelegramError("Invalid server response"), SendResult.UNKNOWN),
    ],
)
def test_only_what_surely_did_not_leave_is_sent_again_without_doubt(
    error: TelegramError, result: SendResult
) -> None:
    assert outcome_of(error).result is result


def test_the_server_must_prove_who_it_is() -> None:
    assert tls().verify_mode is ssl.CERT_REQUIRED
    assert tls().check_hostname
