"""Follows a Containerfile where there is no builder: a folder stands in for the image.

All stages share the folder, since what is installed knows its own path. Words of the file that no
step of ours uses are an error, so that nothing is passed over.
"""

import json
import os
import re
import shutil
import subprocess
from dataclasses import dataclass, field
from pathlib import Path

PLACES = ("/opt/yardbell", "/data")
"""The paths of the image that steps may name."""

USER = "10001"
"""Who runs in the image; where we are not root, whoever we are."""


@dataclass
class Image:
    """What came of a Containerfile.

    Attributes:
        root: the folder that stands in for the image's root.
        base: the image that the last stage begins with.
        environment: its variables, with paths in the folder.
        user: who runs in it.
        volumes: the folders that are kept.
        health: the command that asks whether it is well.
        entrypoint: the program.
        command: its words unless others are given.
        path: where the steps look for programs.
    """

    root: Path
    base: str = ""
    environment: dict[str, str] = field(default_factory=dict)
    user: str = ""
    volumes: list[str] = field(default_factory=list)
    health: list[str] = field(default_factory=list)
    entrypoint: list[str] = field(default_factory=list)
    command: list[str] = field(default_factory=list)
    path: str = os.environ.get("PATH", os.defpath)

    def placed(self, text: str) -> str:
        """Put the folder before each path of the image."""
        for place in PLACES:
            text = re.sub(rf"(?<![\w.]){place}\b", f"{self.root}{place}", text)
        return text if os.geteuid() == 0 else text.replace(USER, str(os.getuid()))

    def run(self, words: list[str], **settings: str) -> "subprocess.Popen[bytes]":
        """Start the program as the image does, by its user and with no other variables."""
        number = int(self.user.partition(":")[0]) if self._others_may_run() else None
        return subprocess.Popen(
            [*self.entrypoint, *(words or self.command)],
            cwd=self.root / "data",
            env={"PATH": os.defpath, **self.environment, **settings},
            user=number,
            group=number,
            extra_groups=None if number is None else (),
            stdin=subprocess.DEVNULL,
        )

    def _others_may_run(self) -> bool:
        """Tell whether we may become another user, and that one reach the image's Python."""
        python = (self.root / "opt" / "yardbell" / ".venv" / "bin" / "python").resolve()
        reached = all(folder.stat().st_mode & 0o001 for folder in python.parents)
        return os.geteuid() == 0 and reached


def follow(file: Path, context: Path, folder: Path, path: str | None = None) -> Image:
    """Do what a Containerfile says, without its base image, in a folder.

    Args:
        file: the Containerfile.
        context: the folder that it copies from.
        folder: stands in for the image's root.
        path: where its steps look for programs; None for where we do.

    Raises:
        subprocess.CalledProcessError: a step failed.
        ValueError: a word that this does not know.
    """
    image, arguments = Image(folder), dict[str, str]()
    image.path = path or image.path
    for line in _lines(file):
        word, _, rest = line.partition(" ")
        if word == "ARG":
            name, _, value = rest.partition("=")
            arguments[f"${{{name}}}"] = value
        elif word == "FROM":
            image.base = arguments.get(rest.split()[0], rest.split()[0])
        else:
            _step(image, word, rest, context)
    return image


def _lines(file: Path) -> list[str]:
    text = file.read_text(encoding="utf-8").replace("\\\n", " ")
    return [line for line in text.splitlines() if line and not line.startswith("#")]


def _step(image: Image, word: str, rest: str, context: Path) -> None:
    if word == "COPY":
        _copy(image, rest, context)
    elif word == "RUN":
        command, around = ["/bin/sh", "-ec", image.placed(rest)], {**os.environ, "PATH": image.path}
        subprocess.run(command, cwd=image.root, env=around, check=True)
    elif word == "ENV":
        name, _, value = rest.partition("=")
        image.environment[name] = image.placed(value)
    elif word in ("USER", "WORKDIR", "VOLUME"):
        _place(image, word, rest)
    else:
        _program(image, word, rest)


def _place(image: Image, word: str, rest: str) -> None:
    if word == "USER":
        image.user = rest
    elif word == "VOLUME":
        image.volumes.append(rest)


def _program(image: Image, word: str, rest: str) -> None:
    given = [image.placed(each) for each in json.loads(rest[rest.index("[") :])]
    if word == "HEALTHCHECK":
        image.health = given
    elif word == "ENTRYPOINT":
        image.entrypoint = given
    elif word == "CMD":
        image.command = given
    else:
        raise ValueError(f"no step of ours is called {word}")


def _copy(image: Image, rest: str, context: Path) -> None:
    options = [word for word in rest.split() if word.startswith("--")]
    source, target = (word for word in rest.split() if not word.startswith("--"))
    if any(option.startswith("--from=") for option in options):
        if source != target:
            raise ValueError(f"{source} would be elsewhere in the image than where it was made")
        return
    to = image.root / target.lstrip("/")
    to.mkdir(parents=True)
    for name in _let_in(context):
        _copied(context / name, to / name)


def _let_in(context: Path) -> list[str]:
    """Name what the file of ignored paths lets into the image."""
    ignored = (context / ".dockerignore").read_text(encoding="utf-8").splitlines()
    return [line.removeprefix("!") for line in ignored if line.startswith("!")]


def _copied(source: Path, target: Path) -> None:
    if source.is_dir():
        shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
    elif source.exists():
        shutil.copy(source, target)
