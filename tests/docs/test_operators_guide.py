"""Every command of the operator's guide is typed, in its order, and each goes well."""

import re
import subprocess
from collections.abc import Iterator

import pytest

from deploy.standins.mail_server import running_mail_server
from deploy.standins.postgresql import Server
from tests.docs.guided_machine import OPERATOR, ROOT, Machine, machine_in

GUIDE = (ROOT / "deploy" / "README.md").read_text()
BLOCKS = re.findall(r"```sh\n(.*?)```", GUIDE, re.DOTALL)
OF_SYSTEMD = {"systemd-journald", "systemd-time-wait-sync"}


class Typed:
    """A machine after the guide was typed, and what was shown meanwhile."""

    def __init__(
        self, machine: Machine, done: "subprocess.CompletedProcess[str]", mails: list[str]
    ) -> None:
        self.machine = machine
        self.done = done
        self.mails = mails


@pytest.fixture(scope="module")
def typed(tmp_path_factory: pytest.TempPathFactory, postgresql: Server) -> Iterator[Typed]:
    with running_mail_server() as mail:
        machine = machine_in(tmp_path_factory.mktemp("machine"), postgresql, mail)
        done = machine.type("\n".join(BLOCKS))
        yield Typed(machine, done, mail.recipients)


def test_each_command_goes_well(typed: Typed) -> None:
    assert len(BLOCKS) >= 13
    assert typed.done.returncode == 0, typed.done.stderr[-2000:]


def test_every_unit_that_is_named_is_shipped(typed: Typed) -> None:
    called = [note.split() for note in typed.machine.notes if note.startswith("systemctl ")]
    verbs = {"daemon-reload", "enable", "disable", "start", "stop", "restart", "status"}
    named = {
        word
        for call in called
        for word in call[1:]
        if not word.startswith("--") and word not in verbs | {"list-timers"}
    }
    shipped = {file.name for file in (typed.machine.root / "etc" / "systemd" / "system").iterdir()}

    assert {"yardbell.service", "yardbell-backup.timer"} <= named
    assert named - OF_SYSTEMD <= shipped


def test_the_records_are_there_after_every_way(typed: Typed) -> None:
    """Back after an update, moved, and put on PostgreSQL, Ada is who she was."""
    after = typed.machine.type(
        f"{next(block for block in BLOCKS if block.startswith('yardbell()'))}\nyardbell check"
    )

    assert after.stdout.count("Ada ") == 1
    assert "postgresql:///yardbell" in after.stdout
    assert after.stdout.endswith("all is well\n")


def test_the_operator_got_the_trial(typed: Typed) -> None:
    assert typed.mails == [OPERATOR]


def test_the_rehearsal_left_nothing(typed: Typed) -> None:
    left = {file.name for file in (typed.machine.root / "var" / "lib" / "yardbell").iterdir()}

    assert not [name for name in left if name.startswith("rehearsal")]


def test_files_of_the_checkout_that_are_named_are_there(typed: Typed) -> None:
    named = re.findall(r"(?<![\w/])deploy/[\w.-]+", "\n".join(BLOCKS))

    assert {"deploy/Containerfile", "deploy/compose.yml"} <= set(named)
    assert [name for name in named if not (ROOT / name).exists()] == []


def test_every_command_of_the_guide_stands_where_it_is_typed() -> None:
    outside = re.sub(r"```.*?```", "", GUIDE, flags=re.DOTALL)

    assert (
        re.findall(r"^(?:sudo|systemctl|podman|python3|apt-get) .*$", outside, re.MULTILINE) == []
    )
