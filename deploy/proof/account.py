"""What a season must come to: each reply once in the log, each message out at least once."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import InboxRow, OutboxRow
from bot.delivery.rules import LEASE, OutboxState, Purpose
from bot.delivery.silent_channels import overdue
from deploy.proof.rough_carrier import Taken
from deploy.proof.season import Season
from deploy.proof.worker import SharedClock
from scheduling.records.engine import reading
from scheduling.records.integrity import damage, faults_of_crews
from scheduling.records.tables import EntryRow


@dataclass
class Account:
    """What came of a season.

    Attributes:
        replies: messages in that the carrier counts as delivered.
        entries: entries that came of them.
        mornings: mornings that fell due.
        out: messages out by the state they ended in.
        copies: messages that arrived more than once.
        by_kill: those of them where a kill fell between sending and marking.
        by_cut: those where the carrier took the message and hung up.
        longest: seconds from the send to the kill that left it unmarked, the longest.
        refused: messages that the carrier refused for good.
        in_doubt: messages given up after two sends of unknown end, and never taken.
        wrong: what must not be.
    """

    replies: int = 0
    entries: int = 0
    mornings: int = 0
    out: Counter[str] = field(default_factory=Counter)
    copies: int = 0
    by_kill: int = 0
    by_cut: int = 0
    longest: float = 0.0
    refused: int = 0
    in_doubt: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        """What came of it, in a line."""
        return (
            f"{self.replies} replies in, {self.entries} entries; {self.mornings} mornings due; "
            f"out: {dict(self.out)}; {self.copies} arrived twice "
            f"({self.by_kill} killed between send and mark, at most {self.longest:.2f} s after "
            f"the send; {self.by_cut} cut off by the carrier); {self.refused} refused for good; "
            f"{len(self.in_doubt)} given up in doubt {self.in_doubt}; {len(self.wrong)} wrong"
        )


def account_of(season: Season) -> Account:
    """Hold the database against what the carrier and the people remember."""
    account = Account(refused=len(season.api.refused))
    with reading(season.engine) as session:
        account.wrong += _wrong_replies(session, season, account)
        account.wrong += _wrong_letters(session, season, account)
        account.wrong += _wrong_mornings(session, season, account)
        now = SharedClock(season.workers.clock_file)()
        account.wrong += overdue(session, now)
        account.wrong += faults_of_crews(session, now)
    with season.engine.connect() as connection:
        account.wrong += damage(connection)
    return account


def _wrong_replies(session: Session, season: Season, account: Account) -> Iterator[str]:
    found = _entries_by_message(session)
    counted = {key: due for who in season.people for key, due in who.counted.items()}
    states = dict(session.execute(select(InboxRow.message_id, InboxRow.state)).all())
    answers = set(session.scalars(select(OutboxRow.key)))
    for key, due in counted.items():
        if found.get(key, Counter()) != due:
            yield f"reply {key} left {found.get(key)} in the log, not {due}"
        if states.get(key, InboxState.DONE) != InboxState.DONE:
            # What was handled days ago is forgotten.
            yield f"reply {key} is {states.get(key)}"
        if f"answer:telegram:{key}" not in answers:
            yield f"reply {key} was not answered"
    for key in found.keys() - counted.keys():
        yield f"entries of {key}, which nobody said"
    account.replies, account.entries = len(counted), sum(map(Counter.total, found.values()))


def _entries_by_message(session: Session) -> dict[str, Counter[tuple[str, str]]]:
    said = select(EntryRow.message, EntryRow.box, EntryRow.letter, EntryRow.kind)
    found: dict[str, Counter[tuple[str, str]]] = {}
    for message, box, letter, kind in session.execute(said.where(EntryRow.message.is_not(None))):
        found.setdefault(str(message), Counter())[(f"{box}{letter}", kind)] += 1
    return found


def _wrong_letters(session: Session, season: Season, account: Account) -> Iterator[str]:
    """Letters by chat and words: as many rows as arrived, but for copies with a known cause.

    An edit changes a letter that is there, and is none.
    """
    rows: dict[tuple[int, str], list[OutboxRow]] = {}
    for row in session.scalars(select(OutboxRow).where(OutboxRow.purpose != Purpose.EDIT)):
        account.out[row.state] += 1
        rows.setdefault((int(row.address), row.text.strip()), []).append(row)
    taken: dict[tuple[int, str], list[Taken]] = {}
    for one in season.api.taken:
        taken.setdefault((one.chat, one.text), []).append(one)
    for key, arrived in taken.items():
        yield from _wrong_copies(season, account, rows.get(key, []), arrived)
    refused = Counter(season.api.refused)
    for key, same in rows.items():
        missing = len(same) - len(taken.get(key, ())) - refused[key]
        doubtful = [row.key for row in same if row.state == OutboxState.UNKNOWN]
        account.in_doubt += doubtful[: max(missing, 0)]
        if missing > len(doubtful):
            yield f"{missing} of {[(row.key, row.state) for row in same]} never arrived"


def _wrong_copies(
    season: Season, account: Account, rows: list[OutboxRow], arrived: list[Taken]
) -> Iterator[str]:
    more = len(arrived) - len(rows)
    if more <= 0:
        return
    account.copies += more
    cut = [one for one in arrived if one.hung_up]
    gaps = [gap for one in arrived if (gap := _killed_after(season, one)) is not None]
    by_cut = min(more, len(cut))
    by_kill = min(more - by_cut, len(gaps))
    account.by_cut, account.by_kill = account.by_cut + by_cut, account.by_kill + by_kill
    # Of a copy that was marked the sender may have been killed too, at any time after.
    unmarked = sorted(gaps)[:by_kill]
    account.longest = max(account.longest, *unmarked, 0.0)
    if any(gap > LEASE.total_seconds() for gap in unmarked):
        yield f"{[row.key for row in rows]} arrived, and was not marked while its sender lived"
    if more > by_cut + by_kill:
        yield f"{more} copies without a cause of {[row.key for row in rows]}: {arrived[0].text!r}"


def _killed_after(season: Season, one: Taken) -> float | None:
    """Seconds until the sender was killed, if it sent nothing more to that chat before."""
    killed = season.workers.killed.get(one.caller)
    later = any(
        other.caller == one.caller and other.chat == one.chat and other.at > one.at
        for other in season.api.taken
    )
    return None if killed is None or later else killed - one.at


def _wrong_mornings(session: Session, season: Season, account: Account) -> Iterator[str]:
    """A morning for each person and day; that each arrived is seen with the other letters."""
    found = session.scalars(select(OutboxRow.key).where(OutboxRow.purpose == "morning"))
    planned = {key.split(":", 1)[1] for key in found}
    people = session.scalars(select(OutboxRow.person_id).distinct())
    due = {f"{person}:{day}" for person in people if person for day in season.days}
    account.mornings = len(due)
    for missing in due - planned:
        yield f"morning {missing} was not planned"
    for state in session.execute(
        select(OutboxRow.key, OutboxRow.state).where(
            OutboxRow.purpose == "morning", OutboxRow.state == OutboxState.EXPIRED
        )
    ):
        yield f"a morning ran out: {state}"
