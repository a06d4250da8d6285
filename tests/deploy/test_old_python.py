"""An old Python is told so in one line instead of failing on syntax it cannot read."""

import ast
import subprocess
import sys
from pathlib import Path

START = Path(__file__).resolve().parents[2] / "deploy" / "start.py"

PRETEND = """
import runpy, sys
sys.version_info = (3, 9, 18, "final", 0)
runpy.run_path({path!r}, run_name="__main__")
"""


def test_python_3_9_is_told_what_is_needed() -> None:
    said = subprocess.run(
        [sys.executable, "-c", PRETEND.format(path=str(START))],
        capture_output=True,
        check=False,
        text=True,
    )
    assert said.returncode == 2
    assert said.stderr == "Yardbell needs Python 3.11 or newer; this is 3.9\n"


def test_the_file_holds_only_what_old_pythons_can_read() -> None:
    tree = ast.parse(START.read_text(), feature_version=(3, 7))
    too_new = (ast.JoinedStr, ast.AnnAssign, ast.FunctionDef, ast.NamedExpr)
    assert not [node for node in ast.walk(tree) if isinstance(node, too_new)]
