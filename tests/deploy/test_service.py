"""The service file and the sample settings agree with each other and with the program."""

from pathlib import Path

import pytest

from bot.jobs.job_scheduler import WATCH_TICK_SECONDS
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


def test_it_waits_for_the_clock_and_the_network() -> None:
    for target in ("network-online.target", "time-sync.target"):
        assert target in unit()["After"]
        assert target in unit()["Wants"]


def test_one_that_hangs_is_started_anew_and_one_that_only_fails_is_left_alone() -> None:
    assert unit()["Type"] == "notify"
    # Two ticks may be late before a program counts as one that hangs.
    assert unit()["WatchdogSec"] == "2min"
    assert WATCH_TICK_SECONDS * 3 < 120


def test_one_that_dies_again_and_again_ends_in_a_word_to_the_owner() -> None:
    dies_after_seconds = 2
    tries = int(unit()["StartLimitBurst"])
    assert unit()["StartLimitIntervalSec"] == "10min"
    assert tries * (int(unit()["RestartSec"]) + dies_after_seconds) < 600
    for name in ("yardbell.service", "yardbell-backup.service"):
        assert settings_in(name)["OnFailure"] == "yardbell-failed@%n.service"
    told = settings_in("yardbell-failed@.service")["ExecStart"]
    assert told.split()[:2] == ["/opt/yardbell/.venv/bin/yardbell", "tell-operator"]


def test_every_unit_runs_as_the_service_does_and_under_its_filter() -> None:
    for name in ("yardbell-backup.service", "yardbell-failed@.service"):
        other = settings_in(name)
        for key in ("User", "EnvironmentFile", "UMask", "SystemCallFilter", "ProtectSystem"):
            assert other[key] == unit()[key]
        assert other["SystemCallErrorNumber"] == unit()["SystemCallErrorNumber"] == "EPERM"


def test_backups_lie_where_their_unit_may_write() -> None:
    backup = settings_in("yardbell-backup.service")
    folder = backup["ExecStart"].split()[-1]
    assert folder in {f"/var/lib/{each}" for each in backup["StateDirectory"].split()}


def test_a_wrong_setting_does_not_make_it_start_over_and_over() -> None:
    assert unit()["Restart"] == "on-failure"
    assert unit()["RestartPreventExitStatus"] == "2"
