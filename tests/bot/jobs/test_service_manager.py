"""A service manager hears that the program is ready, alive and stopping, as sd_notify(3) says."""

import socket
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from bot.jobs.service_manager import Life, tell_service_manager


@contextmanager
def listening_at(address: str) -> Iterator[socket.socket]:
    with socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM) as manager:
        manager.bind(address)
        manager.settimeout(10)
        yield manager


def test_each_word_is_one_datagram(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NOTIFY_SOCKET", str(tmp_path / "notify"))
    with listening_at(str(tmp_path / "notify")) as manager:
        for life in Life:
            tell_service_manager(life)
        said = [manager.recv(100) for _ in Life]
    assert said == [b"READY=1", b"WATCHDOG=1", b"STOPPING=1"]


def test_a_socket_may_have_no_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NOTIFY_SOCKET", f"@{tmp_path}")
    with listening_at(f"\0{tmp_path}") as manager:
        tell_service_manager(Life.ALIVE)
        assert manager.recv(100) == b"WATCHDOG=1"


def test_without_a_manager_nobody_is_told(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    monkeypatch.delenv("NOTIFY_SOCKET", raising=False)
    tell_service_manager(Life.READY)
    assert caplog.records == []


def test_a_manager_that_is_gone_stops_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    monkeypatch.setenv("NOTIFY_SOCKET", str(tmp_path / "nobody"))
    tell_service_manager(Life.READY)
    assert [record.msg for record in caplog.records] == ["the service manager could not be told"]
