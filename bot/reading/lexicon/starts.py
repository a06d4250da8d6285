"""Phrases that set a unit's clock, and those that end a queen's stay."""

from scheduling.entry_kinds import EntryKind

OF_STARTS: dict[EntryKind, tuple[str, ...]] = {
    EntryKind.RAISING_OWN: (
        "raising own", "raising their own", "raise own", "raise their own", "own queen raising",
        "rearing own", "rearing their own", "left to raise own", "left to raise their own",
        "making own queen", "making their own queen", "making their own", "raise their own queen",
        "rear their own", "rear their own queen", "make their own queen", "make their own",
        "raise a queen", "raise their own queens", "to raise a queen", "to make their own",
        "to make their own queen", "to rear their own", "to raise their own queen",
        "to raise their own queens", "raising a queen", "raising own queen",
        "raising their own queen", "walkaway", "walk away", "to raise own", "to raise their own",
    ),
    EntryKind.CAGED_QUEEN_PLACED: (
        "caged queen", "caged queens", "mated queen in cage", "queen in cage", "queen in a cage",
        "caged mated queen", "mated queen caged", "queen cage in", "caged queen in",
        "introduced mated queen", "caged queen placed", "queen introduced in cage",
        "mated queens caged", "mated queen in a cage", "mated queens in cages", "queens in cages",
        "mated caged queen", "mated caged queens", "introduced a mated queen in a cage",
        "introduced a caged queen", "introduced caged queen", "introduced a mated queen",
        "introduced caged queens", "caged queens placed", "caged queens in", "queen in her cage in",
        "caged queen introduced", "mated queen introduced", "put in a caged queen",
        "put a caged queen", "put caged queens", "new caged queen", "new mated queen in a cage",
    ),
    EntryKind.CELL_PLACED: (
        "celled", "recelled", "recell", "re celled", "re cell", "receled", "new cell", "new cells",
        "another cell", "ripe cell", "ripe cells", "cell placed", "cells placed", "cell in",
        "cells in", "cells going in", "cell given", "cells given", "gave cell", "gave cells",
        "cell put in", "cells put in", "cell added", "fresh cell", "fresh cells", "planted cell",
        "planted cells", "cell planted", "cells planted", "replaced cell", "replaced the cell",
        "cell went in", "cells went in",
    ),
    EntryKind.VIRGIN_PLACED: (
        "virgin placed", "virgins placed", "virgin put in", "virgins put in", "virgin given",
        "virgin added", "virgin introduced", "ran in a virgin", "ran in virgin", "virgin run in",
        "introduced virgin", "introduced a virgin", "placed virgin", "placed a virgin",
        "new virgin", "new virgins", "caged virgin", "virgin in a cage", "virgin went in",
    ),
    EntryKind.MADE_UP: (
        "made up", "make up", "stocked", "stocked up", "set up", "started up", "founded",
        "populated", "make new unit", "make unit", "made new unit", "made a new unit", "made unit",
        "started a new unit", "make new nuc", "made up new unit", "made a unit", "put together",
    ),
    EntryKind.QUEEN_TAKEN: (
        "took queen", "i take queen", "i take the queen", "take queen", "take the queen",
        "took the queen", "took her", "queen taken", "caught queen", "caught the queen",
        "caught her", "queen caught", "pulled queen", "pulled the queen", "pulled her",
        "queen pulled", "removed queen", "removed the queen", "queen removed", "harvested",
        "harvested queen", "moved queen", "moved the queen", "queen moved", "caught and caged",
        "caged and took", "collected queen", "queen went", "took laying queen", "moved her",
        "queen harvested", "pulled a queen", "took a queen", "caught a queen",
    ),
}  # fmt: skip
"""Kind of finding -> the phrases that mean it."""
