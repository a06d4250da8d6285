"""The program under the system call filter of the unit that we ship, put on without systemd."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from deploy.standins.bot_api_standin import running_standin
from deploy.standins.databases import copied_file
from deploy.standins.program_beside import ROOT
from deploy.standins.system_call_filter import UNIT, allowed
from tests.bot.serving.programs import PROGRAM, QUICK
from tests.bot.serving.served import ADA, Service, ask, with_crew

CONFINED = f"""
from pathlib import Path
from deploy.standins.system_call_filter import confine
confine(Path({str(UNIT)!r}).read_text())
"""

WITHOUT_ERROR_NUMBER = """
from pathlib import Path
from deploy.standins.system_call_filter import UNIT, confine
lines = UNIT.read_text().splitlines()
confine("\\n".join(line for line in lines if "ErrorNumber" not in line))
import numpy
"""


def run(program: str, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", program, *words],
        cwd=ROOT,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_demo_day_is_the_same_under_the_filter() -> None:
    confined, free = run(CONFINED + PROGRAM, "demo"), run(PROGRAM, "demo")
    assert (confined.returncode, confined.stderr) == (0, "")
    assert confined.stdout == free.stdout


def test_a_week_over_two_yards_is_answered_under_the_filter(
    made_once: Path, tmp_path: Path
) -> None:
    with running_standin() as api:
        service = Service(tmp_path, api.url, program=CONFINED + QUICK)
        copied_file(made_once, tmp_path)
        with_crew(service, yards=("River", "Ridge"))
        with service.process() as process:
            answers = [ask(api, ADA, text) for text in ("due", "week", "river 1a eggs")]
            assert process.poll() is None
    assert all(answers)


@pytest.mark.parametrize("call", ["mbind", "chroot", "ptrace"])
def test_the_filter_leaves_out_what_the_program_has_no_need_of(call: str) -> None:
    assert call not in allowed(UNIT.read_text())


def test_the_filter_is_a_real_one() -> None:
    # The arrays' library asks where its memory shall lie; what it asks with is not allowed.
    assert run(WITHOUT_ERROR_NUMBER).returncode == -signal.SIGSYS
    assert run(CONFINED + "import os; os.chroot('/')").stderr.endswith(
        "PermissionError: [Errno 1] Operation not permitted: '/'\n"
    )
