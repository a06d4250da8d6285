"""What pip says when it fails, shortened to the one line that helps.

The first two samples are what pip 23.2.1 and pip 26.3 said when cut off on purpose, abridged; the
others are made up in their manner.
"""

from pathlib import Path

import pytest

from deploy.environment import LONGEST_REASON, Checkout, reason_for_failure

NOT_FOUND = "ERROR: No matching distribution found for alembic==1.20.1\n"

BROKEN = "WARNING: Retrying (Retry(total=0)) after connection broken by "
REFUSED = "Failed to establish a new connection: [Errno 111] Connection refused"

CUT_OFF = [
    f"{BROKEN}'NewConnectionError('<HTTPConnection>: {REFUSED}')': /simple/alembic/\n{NOT_FOUND}",
    f"{BROKEN}'NewConnectionError(\"port=9: {REFUSED}\")': /simple/alembic/\n{NOT_FOUND}",
    "ERROR: Exception:\nTraceback (most recent call last):\nReadTimeoutError: Read timed out.\n"
    "ERROR: Could not install packages due to an OSError: Max retries exceeded\n",
]

HICCUP = "WARNING: Retrying (Retry(total=4)) after connection broken by 'ProtocolError'\n"


def reason(root: Path, said: str) -> str:
    checkout = Checkout(root)
    checkout.venv.mkdir()
    checkout.log.write_text(said)
    return reason_for_failure(checkout)


@pytest.mark.parametrize("said", CUT_OFF)
def test_a_machine_that_is_cut_off_is_told_so(tmp_path: Path, said: str) -> None:
    assert reason(tmp_path, said).startswith("No network: ")


def test_a_package_that_is_not_there_is_no_matter_of_the_network(tmp_path: Path) -> None:
    assert reason(tmp_path, NOT_FOUND) == (
        "Yardbell's packages could not be installed: "
        "No matching distribution found for alembic==1.20.1 (see .venv/install.log)"
    )


def test_a_full_disk_after_a_hiccup_is_called_a_full_disk(tmp_path: Path) -> None:
    said = HICCUP + "ERROR: Could not install packages due to an OSError: No space left on device\n"
    assert "No space left on device" in reason(tmp_path, said)


def test_without_a_line_of_error_the_last_line_counts(tmp_path: Path) -> None:
    assert "Killed" in reason(tmp_path, "Collecting alembic\nKilled\n\n")


def test_silence_is_said_to_be_silence(tmp_path: Path) -> None:
    assert "pip said nothing" in reason(tmp_path, "")


def test_a_long_word_is_cut(tmp_path: Path) -> None:
    assert reason(tmp_path, "ERROR: " + "x" * 500).count("x" * LONGEST_REASON) == 1
    assert "x" * (LONGEST_REASON + 1) not in reason_for_failure(Checkout(tmp_path))
