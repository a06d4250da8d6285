"""The container: built where there is a builder, and its steps run in a folder where there is none.

Either way the program starts as the image says: by a user who may write in the volume alone, one
on SQLite, then two workers on PostgreSQL, each asked by the image's own health check.
"""

import os
import shutil
import subprocess
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path

from deploy.standins.bot_api_standin import TOKEN, BotApiStandin, running_standin
from deploy.standins.containerfile import Image, follow
from deploy.standins.free_port import free_port
from deploy.standins.postgresql import Server

ROOT = Path(__file__).resolve().parents[2]
CONTAINERFILE = ROOT / "deploy" / "Containerfile"

WELL_WITHIN_SECONDS = 90
CHAT = 11

Worker = tuple["subprocess.Popen[bytes]", list[str]]
"""A running worker and the command that asks whether it is well."""


def builder() -> str | None:
    """Name the program that builds images and works here; None without one."""
    for name in filter(shutil.which, ("podman", "docker")):
        if subprocess.run([name, "info"], capture_output=True, check=False).returncode == 0:
            return name
    return None


def built_by(program: str) -> list[str]:
    """Build the image with a builder, and let it say its version; gives what is wrong."""
    build = [program, "build", "--file", str(CONTAINERFILE), "--tag", "yardbell", str(ROOT)]
    ask = [program, "run", "--rm", "--read-only", "--tmpfs", "/tmp", "yardbell", "--version"]  # noqa: S108
    for command in (build, ask):
        if subprocess.run(command, check=False).returncode != 0:
            return [f"{' '.join(command)} failed"]
    return []


def followed(folder: Path) -> list[str]:
    """Run the steps and then the program in a folder; gives what is wrong."""
    folder.chmod(0o755)
    # The system's own Python goes first, since everybody may run it.
    image = follow(CONTAINERFILE, ROOT, folder, f"/usr/bin:{os.environ['PATH']}")
    server = Server()
    server.folder.chmod(0o755)
    url = server.fresh().render_as_string()
    try:
        alone = _answers(image, [image.environment["YARDBELL_DATABASE"]])
        two = _answers(image, [url, url])
        return [*alone, *two, *_written_elsewhere(image)]
    finally:
        server.stop()


def _answers(image: Image, databases: Sequence[str]) -> list[str]:
    """Start a worker for each database given, say something, and stop them."""
    with running_standin() as api, ExitStack() as stack:
        workers = [stack.enter_context(_running(image, api, each)) for each in databases]
        unwell = [each for each in workers if not _becomes_well(*each)]
        if unwell:
            return [f"{len(unwell)} of {len(workers)} workers are not well"]
        api.push_text(CHAT, "help", "Ada")
        api.wait_for_sent(1, WELL_WITHIN_SECONDS)
    ends = [process.wait(WELL_WITHIN_SECONDS) for process, _ in workers]
    return [] if set(ends) == {0} else [f"the workers ended with {ends}"]


@contextmanager
def _running(image: Image, api: BotApiStandin, database: str) -> Iterator[Worker]:
    port = str(free_port())
    settings: Mapping[str, str] = {
        "YARDBELL_DATABASE": database,
        "YARDBELL_PAGES": port,
        "YARDBELL_TELEGRAM_TOKEN": TOKEN,
        "YARDBELL_TELEGRAM_URL": api.url,
        "YARDBELL_WEATHER_OFF": "1",
    }
    process = image.run([], **settings)
    usual = image.environment["YARDBELL_PAGES"]
    try:
        yield process, [word.replace(usual, port) for word in image.health]
    finally:
        process.terminate()


def _becomes_well(process: "subprocess.Popen[bytes]", ask: list[str]) -> bool:
    give_up = time.monotonic() + WELL_WITHIN_SECONDS
    while time.monotonic() < give_up and process.poll() is None:
        if subprocess.run(ask, capture_output=True, check=False).returncode == 0:
            return True
        time.sleep(0.5)
    return False


def _written_elsewhere(image: Image) -> list[str]:
    """Name what the program's user owns outside of the volume."""
    if os.geteuid() != 0:
        return []
    owner = int(image.user.partition(":")[0])
    owned = [path for path in (image.root / "opt").rglob("*") if path.lstat().st_uid == owner]
    return [f"{path} was written" for path in owned]
