"""Some hundred generated texts; ``python3 deploy/prove.py fuzz`` says a million."""

from pathlib import Path
from random import Random

from deploy.proof.fuzz import Fuzzed, fuzzed
from deploy.proof.texts import half_sense, nonsense


def test_no_text_raises_leaves_its_crew_or_makes_an_entry_of_nonsense(tmp_path: Path) -> None:
    found = fuzzed(seed=77, count=500, folder=tmp_path)

    assert found.faults == []
    assert found.texts == 500
    assert found.in_conversation > 20
    assert found.entries > 5


def test_a_text_that_says_something_would_be_found_out_as_no_nonsense(tmp_path: Path) -> None:
    from deploy.proof.fuzz import Yard
    from scheduling.records.engine import open_engine
    from scheduling.records.migrate import migrate

    engine = open_engine(f"sqlite:///{tmp_path / 'fuzz.sqlite'}")
    migrate(engine)
    yard, found = Yard(engine), Fuzzed()

    assert yard.say("4b eggs", found, may_mean=False)
    yard.over_the_desk(["4b eggs"], found, may_mean=False)
    engine.dispose()

    assert len(found.faults) == 2


def test_the_same_seed_gives_the_same_texts() -> None:
    for kind in (nonsense, half_sense):
        one, two = Random(5), Random(5)  # noqa: S311 - no secret
        assert [kind(one) for _ in range(50)] == [kind(two) for _ in range(50)]
