"""The service file and the sample settings agree with each other and with the program."""

from pathlib import Path

import pytest

from bot.settings.load import load_settings, setting_names

DEPLOY = Path(__file__).resolve().parents[2] / "deploy"


def settings_in(name: str) -> dict[str, str]:
    """Return what a file of ``NAME=value`` lines in the deploy folder sets."""
    lines = (DEPLOY / name).read_text().splitlines()
    pairs = (line.partition("=") for line in lines if not line.startswith("#"))
    return {name: value for name, sign, value in pairs if sign}


def unit() -> dict[str, str]:
    return settings_in("yardbell.service")


def sample() -> dict[str, str]:
    return settings_in("yardbell.env.example")


def test_the_sample_names_every_setting_and_no_other() -> None:
    assert sorted(sample()) == sorted(setting_names())


def test_the_sample_is_accepted_as_it_stands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name, value in sample().items():
        monkeypatch.setenv(name, value)
    assert load_settings().database == sample()["YARDBELL_DATABASE"]


def test_the_service_may_write_where_the_sample_keeps_the_records() -> None:
    folder = f"/var/lib/{unit()['StateDirectory']}"
    assert sample()["YARDBELL_DATABASE"].startswith(f"sqlite:///{folder}/")
    assert unit()["WorkingDirectory"] == folder


def test_a_wrong_setting_does_not_make_it_start_over_and_over() -> None:
    assert unit()["Restart"] == "on-failure"
    assert unit()["RestartPreventExitStatus"] == "2"
