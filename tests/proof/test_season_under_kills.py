"""Workers killed with -9 while two people reply: nothing is lost and nothing is twice.

The short form; ``python3 deploy/prove.py crash`` is the long one.
"""

from pathlib import Path

from deploy.proof.account import account_of
from deploy.proof.season import a_season


def test_a_season_of_kills_loses_nothing(database: str, tmp_path: Path) -> None:
    workers = 1 if database.startswith("sqlite") else 3
    with a_season(database, tmp_path, workers, seed=1) as season:
        season.run(kills=14, a_day=6)
        account = account_of(season)

    assert account.wrong == []
    assert season.kills >= 14
    assert account.replies > 5
    assert account.mornings == 2 * len(season.days) >= 4
    assert account.copies == account.by_kill + account.by_cut
