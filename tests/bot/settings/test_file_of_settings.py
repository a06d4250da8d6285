"""Which file of settings is read: never one that merely lies where somebody stands."""

from pathlib import Path

import pytest

from bot.settings.load import load_settings, passed_over, settings_file
from bot.settings.validators import SettingsError

ELSEWHERE = "YARDBELL_TELEGRAM_URL=https://elsewhere.example\n"


@pytest.fixture(autouse=True)
def checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A checkout and a data folder of the test's own, seen from a third folder."""
    monkeypatch.delenv("YARDBELL_ENV_FILE")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    for name in ("yardbell", "checkout", "somewhere"):
        (tmp_path / name).mkdir()
    monkeypatch.chdir(tmp_path / "somewhere")
    monkeypatch.setattr("bot.settings.load.CHECKOUT", tmp_path / "checkout")
    return tmp_path / "checkout"


@pytest.fixture
def data_folder(tmp_path: Path) -> Path:
    return tmp_path / "yardbell"


def test_a_strangers_file_where_one_stands_sends_the_token_nowhere() -> None:
    Path(".env").write_text(ELSEWHERE)
    assert load_settings().telegram.url is None
    assert settings_file() is None
    assert passed_over()


def test_that_of_the_checkout_is_read(checkout: Path) -> None:
    (checkout / ".env").write_text(ELSEWHERE)
    assert load_settings().telegram.url == "https://elsewhere.example"
    assert not passed_over()


def test_that_of_the_data_folder_goes_before_it(checkout: Path, data_folder: Path) -> None:
    (checkout / ".env").write_text(ELSEWHERE)
    (data_folder / ".env").write_text("YARDBELL_SMPP_PORT=2776\n")
    settings = load_settings()
    assert (settings.smpp.port, settings.telegram.url) == (2776, None)
    assert settings_file() == data_folder / ".env"


def test_one_that_is_named_goes_before_both(
    data_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (data_folder / ".env").write_text(ELSEWHERE)
    Path("mine").write_text("YARDBELL_SMPP_PORT=2776\n")
    monkeypatch.setenv("YARDBELL_ENV_FILE", "mine")
    settings = load_settings()
    assert (settings.smpp.port, settings.telegram.url) == (2776, None)


def test_one_that_is_named_and_not_there_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("YARDBELL_ENV_FILE", "mine")
    with pytest.raises(SettingsError, match="YARDBELL_ENV_FILE is not usable"):
        load_settings()


def test_in_the_checkout_its_own_file_is_not_one_passed_over(
    checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (checkout / ".env").write_text(ELSEWHERE)
    monkeypatch.chdir(checkout)
    assert load_settings().telegram.url == "https://elsewhere.example"
    assert not passed_over()
