"""A checkout so small that it sets itself up in seconds and needs no network."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

COMMAND = 'import sys\n\n\ndef main() -> None:\n    print("yardbell", *sys.argv[1:])\n'

PYPROJECT = """\
[build-system]
requires = []
build-backend = "tiny_backend"
backend-path = ["deploy"]

[project]
name = "yardbell"
version = "0"
"""

# The least that the standard for build backends asks of an editable install (PEP 660).
BACKEND = """
import os
import zipfile

FILES = {
    "yardbell.pth": os.getcwd(),
    "yardbell-0.dist-info/METADATA": "Metadata-Version: 2.1\\nName: yardbell\\nVersion: 0\\n",
    "yardbell-0.dist-info/WHEEL": "Wheel-Version: 1.0\\nTag: py3-none-any\\n",
    "yardbell-0.dist-info/entry_points.txt": "[console_scripts]\\nyardbell = bot.command:main\\n",
}
RECORD = "yardbell-0.dist-info/RECORD"


def build_editable(folder, settings=None, metadata=None):
    name = "yardbell-0-py3-none-any.whl"
    with zipfile.ZipFile(os.path.join(folder, name), "w") as wheel:
        for path, text in FILES.items():
            wheel.writestr(path, text)
        wheel.writestr(RECORD, "".join(f"{path},,\\n" for path in [*FILES, RECORD]))
    return name
"""


def lay_out(root: Path) -> Path:
    """Write the small checkout at ``root``: the real deploy folder, with nothing to fetch."""
    shutil.copytree(ROOT / "deploy", root / "deploy", ignore=shutil.ignore_patterns("__pycache__"))
    for lock in (root / "deploy").glob("*.lock"):
        lock.write_text("# nothing to fetch\n")
    shutil.copytree(ROOT / ".ci", root / ".ci")
    shutil.copy(ROOT / ".dockerignore", root)
    (root / "bot").mkdir()
    (root / "bot" / "command.py").write_text(COMMAND)
    (root / "pyproject.toml").write_text(PYPROJECT)
    (root / "deploy" / "tiny_backend.py").write_text(BACKEND)
    return root


def start(root: Path, *words: str, **variables: str) -> subprocess.CompletedProcess[str]:
    """Type ``python3 deploy/start.py WORDS`` in ``root`` with no terminal."""
    return subprocess.run(
        [sys.executable, "deploy/start.py", *words],
        cwd=root,
        env=os.environ | variables,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=False,
        text=True,
    )
