"""Two processes over planned messages; ``python3 deploy/prove.py rush`` takes ten thousand."""

from pathlib import Path

from deploy.proof.rush import rushed


def test_two_workers_send_each_of_200_messages_once_and_in_order(
    database: str, tmp_path: Path
) -> None:
    sent = rushed(database, tmp_path, 200)

    assert sent.wrong == ()
    assert sum(sent.by_worker) == 200
