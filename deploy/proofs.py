"""The long forms of the proofs: each prints what it found, and says whether it is as it must be."""

import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from deploy.proof.account import account_of
from deploy.proof.container import builder, built_by, followed
from deploy.proof.fuzz import Fuzzed, fuzzed_on_all_cores
from deploy.proof.mutations import all_mutations, mutated
from deploy.proof.rush import rushed
from deploy.proof.season import SeasonError, a_season
from deploy.proof.together import said_together
from deploy.standins.databases import make_tables
from deploy.standins.postgresql import Server
from scheduling.records.engine import open_engine

_PARTS_BETWEEN_LINES = 2

_KILLS_A_DAY = 30

WORKERS = {"sqlite": 1, "postgresql": 3}
"""How many serve at once. SQLite has one writer at a time, and one worker is what it is for."""


Proof = Callable[[int, int], bool]
"""Takes how many, and the seed of what is random."""


def _on_both(proof: Callable[[str, int, int], bool]) -> Proof:
    """Prove it on each database, whatever came of the other."""

    def both(count: int, seed: int) -> bool:
        sound = [proof(kind, count, seed) for kind in WORKERS]
        return all(sound)

    return both


def crash(kind: str, kills: int, seed: int) -> bool:
    """Kill workers so many times while a season runs."""
    began = time.monotonic()
    with _database(kind) as (url, folder), a_season(url, folder, WORKERS[kind], seed) as season:
        try:
            season.run(kills, _KILLS_A_DAY)
        except SeasonError as error:
            print(f"  after {season.kills} kills {error}\n{season.workers.log[-2000:]}")
            return False
        account = account_of(season)
        print(
            f"crash on {kind}: {season.kills} kills of {WORKERS[kind]} at once, "
            f"{len(season.days)} days, {time.monotonic() - began:.0f} s, seed {seed}\n"
            f"  {account}\n  the carrier's faults: {season.api.faults}",
            *account.wrong,
            sep="\n  ",
            flush=True,
        )
    return not account.wrong


def rush(kind: str, messages: int, _seed: int) -> bool:
    """Let two workers send so many planned messages."""
    with _database(kind) as (url, folder):
        began = time.monotonic()
        sent = rushed(url, folder, messages)
        seconds = time.monotonic() - began
    print(f"rush on {kind}: {sent}, {messages / seconds:,.0f} messages/s", flush=True)
    return not sent.wrong


def together(kind: str, times: int, _seed: int) -> bool:
    """Let two people reply at the same moment so many times."""
    with _database(kind) as (url, _):
        engine = open_engine(url)
        wrong = said_together(engine, times)
        engine.dispose()
    print(
        f"together on {kind}: {times:,} times two replies; wrong: {wrong or 'nothing'}", flush=True
    )
    return not wrong


def fuzz(count: int, seed: int) -> bool:
    """Say so many generated texts."""
    found = Fuzzed(seconds=1.0)
    for number, found in enumerate(fuzzed_on_all_cores(count, seed), start=1):
        if number % _PARTS_BETWEEN_LINES == 0:
            print(f"  {found}", flush=True)
    print("\n".join([f"fuzz: {found}", *found.faults]))
    return not found.faults


def mutations(count: int, _seed: int) -> bool:
    """Try the first so many mutations of the lists."""
    return mutated(all_mutations()[:count])


def container(_count: int, _seed: int) -> bool:
    """Build the container where there is a builder, and run its steps without one."""
    program, began = builder(), time.monotonic()
    with tempfile.TemporaryDirectory() as name:
        wrong = followed(Path(name)) + (built_by(program) if program else [])
    print(
        f"container: its steps run, one worker on SQLite and two on PostgreSQL answer; built by "
        f"{program or 'nothing, since no builder works here'}, {time.monotonic() - began:.0f} s",
        *(wrong or ["wrong: nothing"]),
        sep="\n  ",
        flush=True,
    )
    return not wrong


@contextmanager
def _database(kind: str) -> Iterator[tuple[str, Path]]:
    """An empty database with its tables, and a folder; both are gone at the end."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        server = Server() if kind == "postgresql" else None
        url = server.fresh().render_as_string() if server else f"sqlite:///{folder}/proof.sqlite"
        make_tables(url)
        try:
            yield url, folder
        finally:
            if server is not None:
                server.stop()


PROOFS: Mapping[str, tuple[Proof, int]] = {
    "crash": (_on_both(crash), 300),
    "rush": (_on_both(rush), 10_000),
    "together": (_on_both(together), 1_000),
    "fuzz": (fuzz, 1_000_000),
    "mutations": (mutations, 1_000_000),
    "container": (container, 1),
}
"""Every proof, and how many it takes unless told otherwise."""
