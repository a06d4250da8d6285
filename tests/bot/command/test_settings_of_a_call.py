"""Settings that are wrong or missing: a line that names them and tells no secret."""

from pathlib import Path

import pytest

from tests.bot.command.conftest import Yardbell

TOKEN = "123456:an-invented-token"  # noqa: S105 - made up for this test


@pytest.mark.parametrize("words", [["read", "4b eggs"], ["serve"], ["chat", "--as", "Ada"]])
def test_a_wrong_setting_is_named(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch, words: list[str]
) -> None:
    monkeypatch.setenv("YARDBELL_TELEGRAM_TOKEN", TOKEN)
    monkeypatch.setenv("YARDBELL_LOG_LEVEL", "loud")
    said = yardbell(*words).complaint
    assert said.startswith("YARDBELL_LOG_LEVEL is not usable: ")
    assert "'DEBUG', 'INFO', 'WARNING' or 'ERROR'" in said
    assert TOKEN not in said


def settings_file_of(yardbell: Yardbell, patch: pytest.MonkeyPatch) -> Path:
    """Where the data folder's file of settings is; no other is named."""
    patch.delenv("YARDBELL_ENV_FILE")
    file = yardbell.folder / "data" / "yardbell" / ".env"
    file.parent.mkdir(parents=True)
    return file


def test_a_file_of_settings_that_is_no_text(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = settings_file_of(yardbell, monkeypatch)
    file.write_bytes(b"YARDBELL_LOG_LEVEL=\xff\xfe\n")
    assert yardbell("read", "4b eggs").complaint == f"the file {file} is not UTF-8 text"


def test_serving_needs_a_channel(yardbell: Yardbell) -> None:
    assert "YARDBELL_TELEGRAM_TOKEN" in yardbell("serve").complaint


def test_an_empty_setting_counts_as_not_set(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("YARDBELL_TELEGRAM_TOKEN", "")
    monkeypatch.setenv("YARDBELL_LOG_LEVEL", "")
    assert "no channel is configured" in yardbell("serve").complaint


@pytest.mark.parametrize("words", [["read", "4b eggs"], ["demo"]])
def test_a_data_folder_that_cannot_be_made(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch, words: list[str]
) -> None:
    (yardbell.folder / "data").write_text("a file where a folder should be")
    monkeypatch.delenv("YARDBELL_DATABASE")
    assert "the data folder cannot be made" in yardbell(*words).complaint
