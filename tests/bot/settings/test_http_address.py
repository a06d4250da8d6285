"""Where HTTP is answered: this machine only, unless another address is told."""

import pytest

from bot.settings.address import HttpAddress, parse_address
from bot.settings.load import load_settings
from bot.settings.settings import Settings
from bot.settings.validators import SettingsError


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("8080", HttpAddress("127.0.0.1", 8080)),
        (":8080", HttpAddress("127.0.0.1", 8080)),
        ("0.0.0.0:80", HttpAddress("0.0.0.0", 80)),  # noqa: S104 - told so
        ("localhost:0", HttpAddress("localhost", 0)),
        ("[::1]:8080", HttpAddress("::1", 8080)),
    ],
)
def test_an_address_is_a_host_and_a_port(written: str, meant: HttpAddress) -> None:
    assert parse_address(written) == meant
    assert parse_address(str(meant)) == meant


@pytest.mark.parametrize("written", ["", "here", "here:", "here:http", ":70000", "::1:8080", "-1"])
def test_what_is_no_address_is_refused(written: str) -> None:
    with pytest.raises(ValueError, match="for example"):
        parse_address(written)


def test_without_the_setting_nothing_is_answered() -> None:
    assert Settings().http_address is None


def test_a_wrong_setting_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("YARDBELL_HTTP", "nowhere")
    with pytest.raises(SettingsError, match=r"YARDBELL_HTTP is not usable: .*HOST:PORT"):
        load_settings()
