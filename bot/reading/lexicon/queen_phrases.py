"""Phrases about cells, queens and what they lay; phrases that start a unit or take its queen."""

from itertools import product

from scheduling.entry_kinds import EntryKind

_CELL = ("cell", "queen cell", "qc")
_LINKS = ("", "is ", "was ", "got ", "has been ")
_LINKS_OF_MANY = ("", "are ", "all ", "have ", "have all ", "were ", "are all ")


def _cell(*states: str) -> tuple[str, ...]:
    """Give what is said of a cell or of several, with and without its verb."""
    one = (f"{cell} {link}{state}" for cell, link, state in product(_CELL, _LINKS, states))
    many = (f"cells {link}{state}" for link, state in product(_LINKS_OF_MANY, states))
    return (*one, *many)


OF_QUEENS: dict[EntryKind, tuple[str, ...]] = {
    EntryKind.EGGS: (
        "eggs", "egg", "laying", "lays", "laid", "laying well", "laying nicely", "queen laying",
        "laying queen", "queen is laying", "she is laying", "started laying", "has eggs",
        "eggs and larvae", "eggs and brood", "fresh eggs", "new eggs", "single eggs",
        "one egg per cell", "young larvae", "mated and laying", "laying good", "larvae", "larva",
        "open brood", "eggs or larvae", "eggs or brood", "eggs and larva", "eggs larvae",
        "eggs or larva", "eggs or young larvae", "started to lay", "begun to lay", "began laying",
        "began to lay", "begun laying", "lay", "laying already", "in lay", "come into lay",
        "came into lay", "laying up", "in full lay", "eggs and open brood", "laying a treat",
        "laying like mad", "young brood", "egg laying", "laying fine", "laying great",
        "laying strong", "wet brood", "eggs and young larvae", "laying away", "queen in lay",
        "queen is in lay", "she is in lay",
    ),
    EntryKind.NO_EGGS: ("eggless", "no egg", "zero eggs", "not any eggs",
        "queen not laying", "queen is not laying", "queen has not started laying",
        "virgin not laying", "she is not laying", "no eggs or larvae", "not in lay",
        "no eggs no larvae", "no eggs and no larvae", "no eggs or brood", "no eggs and no brood",
        "no eggs no brood", "eggs none", "no eggs nor larvae", "not yet laying", "yet to lay",
        "not come into lay",
        "no eggs at all", "no eggs whatsoever", "not a single egg", "not one egg"),
    EntryKind.EMERGED: (
        "emerged", "hatched", "emerge", "queen emerged",  "hatched out",
        "queen hatched", "virgin emerged", "virgin hatched", "out of the cell",
        "is out of the cell", "she is out of the cell",
        "out of her cell", "out of cell", "trapdoor open",
        "popped", "popped out", "has hatched", "has emerged", "she hatched", "chewed her way out",
        "chewed out of the cell", "out of the queen cell",
        *_cell("open at the tip", "open at tip", "opened at the tip", "opened at tip",
               "open at the end", "open at the bottom", "popped", "hatched", "emerged",
               "open at the point", "opened at the end", "neatly opened"),
    ),
    EntryKind.NOT_EMERGED: (
        "still sealed", "still capped", "unhatched", "unemerged", "still in the cell",
        "still in cell", "still in her cell", "sealed cell", "still closed", "still shut",
        *_cell("still sealed", "still capped", "still closed", "still shut", "sealed", "closed",
               "intact", "still intact", "unopened", "not open", "not open yet", "not opened",
               "not opened yet", "shut", "not hatched", "not hatched yet", "not emerged"),
    ),
    EntryKind.CELL_FAILED: (
        "dud", "duds", "dud cell", "torn down", "torn cell", "tore down cell", "tore it down",
        "tore the cell down", "dead cell", "failed cell", "bad cell", "dead in the cell",
        "dead in cell", "chewed down", "dead pupa", "destroyed cell", "crushed cell",
        "chilled cell", "cold cell", "tore down the cell", "bees tore it down", "duff cell",
        "they tore it down", "bees tore the cell down", "they tore the cell down", "rotten cell",
        "dead in her cell", "dead larva in cell", "dead larva in the cell",
        *_cell("dead", "torn down", "torn", "torn open", "died", "crushed", "chewed", "destroyed",
               "chewed out", "chewed down", "rejected", "bad", "failed", "a dud", "ruined",
               "damaged", "squashed", "chilled", "rotten", "dud", "open at the side",
               "opened at the side", "chewed out at the side", "chewed open at the side",
               "chewed through the side", "torn open at the side", "torn at the side",
               "not accepted", "knocked off", "fell off", "black inside"),
    ),
    EntryKind.RELEASED: (
        "released", "release", "rel", "let out", "let her out", "out of the cage", "out of cage",
        "is out of the cage", "she is out of the cage", "queen is out of the cage",
        "is out of cage", "cage empty", "empty cage", "queen released", "freed",
        "queen out of cage", "candy eaten", "released her", "released the queen",
        "out of her cage", "queen free", "queen loose", "is free", "is loose", "set free", "free",
        "queens out of the cage", "queens out of cage", "have been released", "both released",
        "released by hand", "released her by hand", "direct released", "queen is free",
        "she is free", "queen out of the cage", "ate the candy", "chewed through the candy",
        "walked out of the cage", "candy gone", "candy is gone", "candy is all gone",
        "candy all gone", "candy has gone", "candy all eaten", "cage is empty", "she got out",
        "got out of her cage", "got out of the cage", "has got out of her cage", "let loose",
    ),
    EntryKind.STILL_CAGED: (
        "still in the cage", "still in cage", "still caged", "in the cage still",
        "still in her cage", "unreleased", "queen still in cage", "queen still in the cage",
        "queen still caged", "candy not eaten", "has not eaten the candy",
        "have not eaten the candy", "not let out", "candy still there", "candy not gone",
        "still locked in", "candy still in", "still in her box", "not out of the cage",
        "not out of cage", "not out of her cage",
    ),
    EntryKind.QUEEN_DEAD: (
        "queen dead", "dead queen", "queen died", "queen is dead", "found her dead", "she is dead",
        "she died", "killed the queen", "killed queen", "killed her", "queen killed",
        "dead in the cage", "dead in cage", "queen dead in cage", "queen dead in the cage",
        "queen was dead", "queen was dead in the cage", "found queen dead", "found the queen dead",
        "she was dead", "queen found dead", "dead in her cage", "queen squashed", "queen crushed",
        "balled and killed", "balled her to death", "squished the queen", "squished her",
        "culled the queen", "pinched", "squished", "culled", "pinched off", "culled her",
        "culled queen", "queen culled", "pinched her head", "virgin dead", "dead virgin",
        "pinched queen", "pinched her", "pinched the queen",
    ),
    EntryKind.VIRGIN_SEEN: (
        "virgin seen", "saw virgin", "saw a virgin", "saw the virgin", "seen virgin",
        "seen a virgin", "virgin running", "virgin there", "virgin present", "virgin in there",
        "virgin still", "spotted virgin", "found virgin", "found a virgin", "unmated queen", "vq",
        "virgin queen seen", "virgin running around", "still a virgin", "still virgin",
        "virgin found", "virgin spotted", "virgin queen running", "virgin queen spotted",
        "virgin queen found", "still unmated", "unmated",
    ),
    EntryKind.QUEEN_SEEN: (
        "queen seen", "saw queen", "saw the queen", "saw a queen", "saw her", "seen her",
        "found her", "found queen", "found the queen", "spotted her", "spotted the queen",
        "see her", "see queen", "see the queen", "find her", "find queen", "find the queen",
        "queen there", "queen present", "queen spotted", "queen found", "queen in there",
        "she is there", "she is in there", "seen queen", "seen the queen", "queen sighted",
    ),
    EntryKind.QUEEN_NOT_SEEN: (
        "queen missing", "missing queen", "queen unseen", "missed the queen",
        *(
            f"{lead}{not_seen} her"
            for lead in ("", "did ", "could ", "can ")
            for not_seen in ("not see", "not find")
        ),
        "not seen her", "have not seen her", "no sign of her", "never saw her", "not found her",
    ),
    EntryKind.DRONE_LAYER: (
        "drone layer", "drone laying", "drone laying queen", "dronelayer", "drone layers",
        "only drone brood", "drone brood only", "drones only", "only drones", "all drone brood",
        "laying drones", "laying only drones", "drone eggs only", "layer of drones", "dl", "dlq",
        "all drone", "all drones", "bullet brood", "nothing but drones", "nothing but drone brood",
        "drone brood in worker cells", "drones in worker cells", "all bullet brood",
        "drone layer queen", "drone brood everywhere", "just drone brood", "just drones",
        "all drone cells", "drone cells in worker comb",
    ),
    EntryKind.LAYING_WORKERS: (
        "laying workers", "laying worker", "workers laying", "worker laying", "workers are laying",
        "eggs on the walls", "eggs on cell walls", "eggs on walls", "lw",
        "eggs on the cell walls", "eggs on the sides", "gone laying worker", "turned laying worker",
        "gone to laying workers", "has laying workers", "multiple eggs on the walls",
        "multiple eggs on the cell walls", "eggs all over the walls", "gone laying workers",
    ),
    EntryKind.OWN_CELLS: (
        "swarm cells", "swarm cell", "own cells", "own cell", "supersedure cells",
        "supersedure cell", "emergency cells", "emergency cell", "wild cells", "wild cell",
        "cells of their own", "cell of their own", "rogue cells", "rogue cell",
        *(f"{doing} {whose}{cells}" for doing in ("drawing", "drawing out", "building", "making",
          "started", "raising", "pulling", "starting", "drew", "built", "made", "drawn")
          for whose in ("", "their own ", "own ") for cells in ("queen cells", "cells")),
        "charged cells", "charged queen cells", "charged queen cell", "swarm prep",
        "supersedure", "superseding", "emergency queen cells", "swarm queen cells",
        "supersedure queen cells", "queen cells of their own", "wild queen cells",
    ),
}  # fmt: skip
"""Kind of finding -> the phrases that mean it."""


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
