"""What can be said in a crew, who may say it, and what a crew's rows are before and after."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Engine, MetaData, Table, select

from scheduling.entry_kinds import EntryKind
from scheduling.records.engine import reading
from scheduling.records.tables import Role

RANK = {Role.WATCHER: 0, Role.KEEPER: 1, Role.OWNER: 2}

COMMANDS: Mapping[Role, tuple[str, ...]] = {
    Role.WATCHER: (
        *("due", "due orchard", "tomorrow", "week", "more", "queens", "failing", "1a", "help"),
        *("cautions", "crew", "yards", "Orchard", "yard Orchard", "odds", "days", "begin"),
        *("join ABC234", "stop", "start", "morning 5:45", "quiet", "quiet 21 to 6", "quiet off"),
        *("zone Chicago", "channels", "other channel never", "chat first", "add chat"),
        *("number 202 555 0177", "remove number", "remove chat", "leave", "leave yes"),
        *("codes", "withdraw ABC234"),
        *("my data", "forget me", "forget me yes"),
        *("cancel",),
    ),
    Role.KEEPER: (
        *("undo", "boxes 7-8 of 3", "box 9 single", "plan 12 queens by 10 june"),
        *("remove box 6", "move 5a to 9b", "empty box 6"),
    ),
    Role.OWNER: (
        *("rename Orchard to Ridge", "remove yard Orchard"),
        *("new yard Ridge", "location 41.3, -92.6", "feeder 2 quarts", "usual odds"),
        *("look at 70 percent", "give up at 5 percent", "days sat sun", "not on monday"),
        *("invite", "invite Pat", "invite Pat 202 555 0123", "remove Wren", "remove Wren yes"),
        *("Wren keeper", "Milo owner", "hand over to Milo", "hand over to Milo yes"),
    ),
}
"""What can be typed, by the least role that may."""

NOTES: Mapping[EntryKind, str] = {
    EntryKind.MADE_UP: "2a made up 2 frames brood 3 shakes",
    EntryKind.GRAFTED: "grafted 40 from 2b",
    EntryKind.CELL_PLACED: "10 day cell in 2a",
    EntryKind.VIRGIN_PLACED: "3 day virgin in 2a",
    EntryKind.CAGED_QUEEN_PLACED: "2a caged queen",
    EntryKind.RAISING_OWN: "2a raising own",
    EntryKind.EMERGED: "1a out",
    EntryKind.NOT_EMERGED: "1a still sealed",
    EntryKind.CELL_FAILED: "1b dud",
    EntryKind.RELEASED: "3a released",
    EntryKind.STILL_CAGED: "3a still in the cage",
    EntryKind.QUEEN_DEAD: "1a queen dead",
    EntryKind.VIRGIN_SEEN: "1a saw virgin",
    EntryKind.QUEEN_SEEN: "1a saw her",
    EntryKind.QUEEN_NOT_SEEN: "1a no queen seen",
    EntryKind.EGGS: "1a eggs",
    EntryKind.NO_EGGS: "1a no eggs",
    EntryKind.SEALED_BROOD: "1a good brood",
    EntryKind.DRONE_LAYER: "1a drone layer",
    EntryKind.LAYING_WORKERS: "1a laying workers",
    EntryKind.OWN_CELLS: "1a own cells",
    EntryKind.FED: "fed 1a 1 quart",
    EntryKind.STORES: "1a no food",
    EntryKind.TRAP_SET: "1a trap set",
    EntryKind.TRAP_SERVICED: "1a trap emptied 12 beetles",
    EntryKind.BROOD_ADDED: "1a brood added",
    EntryKind.BEES_ADDED: "1a bees added",
    EntryKind.QUEEN_TAKEN: "1a sold",
    EntryKind.ROBBED: "1a robbed",
    EntryKind.ABSCONDED: "1a absconded",
    EntryKind.DEAD: "1a dead out",
    EntryKind.COMBINED: "combined 1a into 1b",
    EntryKind.EMPTIED: "1a emptied",
    EntryKind.WEATHER_SEEN: "rained all day",
    EntryKind.FORAGE_SEEN: "nectar flow started",
    EntryKind.PUT_OFF: "1a skip till friday",
    EntryKind.YARD_TAKEN: "taking orchard",
    EntryKind.NOTE: "1a note mild bees",
}
"""One text for each kind of entry that is noted; a strike comes of undo, a move of a command."""

REFUSED = ("Only Ada can do that", "You may look but not note")

Row = dict[str, Any]


@dataclass(frozen=True)
class Rows:
    """All rows of a crew, by table."""

    tables: Mapping[str, tuple[Row, ...]]

    def others_than(self, person: int) -> "Rows":
        """Leave out what is a person's own to change."""
        return Rows({name: tuple(_not_own(name, rows, person)) for name, rows in self})

    def without(self, *names: str) -> "Rows":
        """Leave out some tables."""
        return Rows({name: rows for name, rows in self if name not in names})

    def __iter__(self) -> Iterator[tuple[str, tuple[Row, ...]]]:
        """Each table with its rows."""
        return iter(self.tables.items())


_NOT_THEIRS_TO_CHANGE = ("id", "crew_id", "role", "feeder_litres")


def _not_own(table: str, rows: tuple[Row, ...], person: int) -> Iterator[Row]:
    for row in rows:
        if table == "person" and row["id"] == person:
            yield {name: row[name] for name in _NOT_THEIRS_TO_CHANGE}
        elif not _is_own(table, row, person):
            yield row


def _is_own(table: str, row: Row, person: int) -> bool:
    if table == "invite":
        return bool(row["own"]) and row["made_by"] == person
    own = ("number_asked", "address", "set_up_change")
    return table in own and row["person_id"] == person


@dataclass
class CrewRows:
    """Reads the rows of one crew of a database."""

    engine: Engine
    crew: int
    tables: MetaData

    def read(self) -> Rows:
        """Give the rows as they are now."""
        with reading(self.engine) as session:
            found = {
                name: tuple(dict(row) for row in session.execute(self._of(name)).mappings())
                for name in ("crew", "yard", "person", "invite", "number_asked", "entry")
            }
            yards = {row["id"] for row in found["yard"]}
            people = {row["id"] for row in found["person"]}
            for name, column, ids in (("unit", "yard_id", yards), ("address", "person_id", people)):
                table = self.tables.tables[name]
                some = select(table).where(table.c[column].in_(ids)).order_by(*table.primary_key)
                found[name] = tuple(dict(row) for row in session.execute(some).mappings())
        return Rows(found)

    def _of(self, name: str) -> Any:
        table: Table = self.tables.tables[name]
        column = table.c["id" if name == "crew" else "crew_id"]
        return select(table).where(column == self.crew).order_by(*table.primary_key)
