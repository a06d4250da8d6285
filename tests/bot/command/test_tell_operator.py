"""Whoever runs the machine gets a word, also when the database is what is broken."""

import pytest

from deploy.standins.bot_api_faults import forbidden
from deploy.standins.bot_api_standin import TOKEN, running_standin
from deploy.standins.mail_server import running_mail_server
from tests.bot.command.conftest import Yardbell

STOPPED = "Yardbell on shed has stopped."


@pytest.fixture(autouse=True)
def _a_database_that_cannot_be_read(yardbell: Yardbell) -> None:
    yardbell.database.write_bytes(b"no database at all")


def test_a_word_goes_to_the_operators_chat(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch
) -> None:
    with running_standin() as api:
        monkeypatch.setenv("YARDBELL_TELEGRAM_TOKEN", TOKEN)
        monkeypatch.setenv("YARDBELL_TELEGRAM_URL", api.url)
        monkeypatch.setenv("YARDBELL_OPERATOR_CHAT", "11")
        api.push_text(11, "/start", "Ada")
        assert yardbell.good("tell-operator", STOPPED) == "told over telegram\n"
        assert [(sent.chat, sent.text) for sent in api.sent] == [(11, STOPPED)]


def test_a_word_said_twice_goes_twice_by_mail(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch
) -> None:
    with running_mail_server() as server:
        for name, value in {
            "MAIL_HOST": "127.0.0.1",
            "MAIL_PORT": str(server.port),
            "MAIL_SECURITY": "none",
            "MAIL_FROM": "bees@club.example",
            "MAIL_KEY": "an invented key of many letters",
            "OPERATOR_MAIL": "ann@club.example",
        }.items():
            monkeypatch.setenv(f"YARDBELL_{name}", value)
        for _ in range(2):
            assert yardbell.good("tell-operator", STOPPED) == "told over mail\n"
        assert server.recipients == ["ann@club.example"] * 2
        assert len({mail["Message-ID"] for mail in server.mails}) == 2


def test_a_word_that_nobody_took_is_exit_code_1(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch
) -> None:
    with running_standin() as api:
        monkeypatch.setenv("YARDBELL_TELEGRAM_TOKEN", TOKEN)
        monkeypatch.setenv("YARDBELL_TELEGRAM_URL", api.url)
        monkeypatch.setenv("YARDBELL_OPERATOR_CHAT", "11")
        api.push_text(11, "/start", "Ada")
        api.next_send(forbidden())
        said = yardbell("tell-operator", STOPPED)
    assert (said.code, said.err) == (1, "not told, blocked, over telegram\n")


def test_without_an_address_it_says_which_settings_are_missing(yardbell: Yardbell) -> None:
    said = yardbell("tell-operator", STOPPED).complaint
    assert said == "nobody is told; set YARDBELL_OPERATOR_CHAT or YARDBELL_OPERATOR_MAIL"
