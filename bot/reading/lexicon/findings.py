"""Phrases that mean one finding, whatever the unit."""

from scheduling.entries import EntryKind

FINDINGS: dict[EntryKind, tuple[str, ...]] = {
    EntryKind.EGGS: (
        "eggs", "egg", "laying", "lays", "laid", "laying well", "laying nicely", "queen laying",
        "laying queen", "queen is laying", "she is laying", "started laying", "has eggs",
        "eggs and larvae", "eggs and brood", "fresh eggs", "new eggs", "single eggs",
        "one egg per cell", "young larvae", "mated and laying", "laying good",
    ),
    EntryKind.NO_EGGS: ("eggless", "no egg", "zero eggs", "not any eggs",
        "queen not laying", "queen is not laying", "queen has not started laying",
        "virgin not laying", "she is not laying"),
    EntryKind.EMERGED: (
        "emerged", "hatched", "emerge", "queen emerged", "cell emerged", "hatched out",
        "cell hatched", "queen hatched", "virgin emerged", "virgin hatched", "out of the cell",
        "is out of the cell", "she is out of the cell",
        "out of her cell", "out of cell", "cell open at the tip", "trapdoor open",
    ),
    EntryKind.NOT_EMERGED: (
        "still sealed", "still capped", "cell still sealed", "cell still capped", "unhatched",
        "unemerged", "still in the cell", "still in cell", "still in her cell", "cell sealed",
        "sealed cell", "cell closed", "still closed", "cell not open", "cell still closed",
    ),
    EntryKind.CELL_FAILED: (
        "dud", "duds", "dud cell", "torn down", "cell torn down", "torn cell", "cell torn",
        "tore down cell", "tore it down", "tore the cell down", "dead cell", "cell dead",
        "cell failed", "failed cell", "cell empty", "empty cell", "bad cell", "cell bad",
        "dead in the cell", "dead in cell", "cell died", "cell crushed", "cell chewed",
        "chewed down", "cell rejected", "cell is dead", "cell is a dud", "dead pupa",
    ),
    EntryKind.RELEASED: (
        "released", "release", "let out", "let her out", "out of the cage", "out of cage",
        "is out of the cage",
        "she is out of the cage", "queen is out of the cage", "is out of cage",
        "cage empty", "empty cage", "queen released", "freed", "queen out of cage",
        "candy eaten", "released her", "released the queen", "out of her cage",
    ),
    EntryKind.STILL_CAGED: (
        "still in the cage", "still in cage", "still caged", "in the cage still",
        "still in her cage",
        "unreleased", "queen still in cage", "queen still in the cage", "queen still caged",
    ),
    EntryKind.QUEEN_DEAD: (
        "queen dead", "dead queen", "queen died", "queen is dead", "found her dead", "she is dead",
        "she died", "killed the queen", "killed queen", "killed her", "queen killed",
        "dead in the cage", "dead in cage", "queen dead in cage", "queen dead in the cage",
        "virgin dead", "dead virgin", "pinched queen", "pinched her", "pinched the queen",
    ),
    EntryKind.VIRGIN_SEEN: (
        "virgin seen", "saw virgin", "saw a virgin", "saw the virgin", "seen virgin",
        "seen a virgin", "virgin running", "virgin there", "virgin present", "virgin in there",
        "virgin still", "spotted virgin", "found virgin", "found a virgin", "unmated queen",
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
        "laying drones", "laying only drones", "drone eggs only", "layer of drones",
    ),
    EntryKind.LAYING_WORKERS: (
        "laying workers", "laying worker", "workers laying", "worker laying", "workers are laying",
        "eggs on the walls", "eggs on cell walls", "eggs on walls",
    ),
    EntryKind.OWN_CELLS: (
        "swarm cells", "swarm cell", "own cells", "own cell", "supersedure cells",
        "supersedure cell", "emergency cells", "emergency cell", "wild cells", "wild cell",
        "cells of their own", "cell of their own", "building cells", "drawing cells",
        "started cells", "rogue cells", "rogue cell", "drew cells", "built cells",
    ),
    EntryKind.RAISING_OWN: (
        "raising own", "raising their own", "raise own", "raise their own", "own queen raising",
        "rearing own", "rearing their own", "left to raise own", "left to raise their own",
        "making own queen", "making their own queen", "making their own", "raising own queen",
        "raising their own queen", "walkaway", "walk away", "to raise own", "to raise their own",
    ),
    EntryKind.CAGED_QUEEN_PLACED: (
        "caged queen", "caged queens", "mated queen in cage", "queen in cage", "queen in a cage",
        "caged mated queen", "mated queen caged", "queen cage in", "caged queen in",
        "introduced mated queen", "caged queen placed", "queen introduced in cage",
    ),
    EntryKind.CELL_PLACED: (
        "celled", "recelled", "new cell", "new cells", "another cell", "ripe cell", "ripe cells",
        "cell placed", "cells placed", "cell in", "cells in", "cells going in", "cell given",
        "cells given",
        "gave cell", "gave cells", "cell put in", "cells put in", "cell added", "fresh cell",
        "fresh cells", "planted cell", "planted cells", "cell planted", "cells planted",
        "replaced cell", "replaced the cell", "cell went in", "cells went in",
    ),
    EntryKind.VIRGIN_PLACED: (
        "virgin placed", "virgins placed", "virgin put in", "virgins put in", "virgin given",
        "virgin added", "virgin introduced", "ran in a virgin", "ran in virgin", "virgin run in",
        "introduced virgin", "introduced a virgin", "placed virgin", "placed a virgin",
        "new virgin", "new virgins", "caged virgin", "virgin in a cage", "virgin went in",
    ),
    EntryKind.MADE_UP: (
        "made up", "make up", "stocked", "stocked up", "set up", "started up", "founded",
        "populated",
    ),
    EntryKind.FED: (
        "fed", "syrup", "sugar water", "sirup", "fed syrup", "topped up", "topped up feeder",
        "filled feeder", "feeder filled", "filled the feeder", "refilled feeder", "fed them",
        "refilled", "topped off", "gave feed", "gave syrup", "fed again", "given syrup",
    ),
    EntryKind.TRAP_SET: (
        "trap set", "traps set", "set trap", "set traps", "set a trap", "trap placed", "new trap",
        "new traps", "trap in", "traps in", "trap put in", "placed trap", "put trap in",
        "beetle trap in", "beetle traps in", "trap added", "traps added", "trap fitted",
    ),
    EntryKind.TRAP_SERVICED: (
        "trap serviced", "traps serviced", "trap emptied", "traps emptied", "emptied trap",
        "emptied traps", "emptied the trap", "trap cleaned", "traps cleaned", "cleaned trap",
        "cleaned traps", "trap changed", "traps changed", "changed trap", "changed traps",
        "serviced trap", "serviced traps", "trap oil changed", "trap refilled", "trap done",
        "traps done", "serviced the trap", "cleaned the trap", "emptied the traps",
    ),
    EntryKind.BROOD_ADDED: (
        "brood added", "added brood", "gave brood", "brood given", "boosted with brood",
        "gave them brood", "brood frame added", "added brood frame", "gave a brood frame",
    ),
    EntryKind.BEES_ADDED: (
        "bees added", "added bees", "gave bees", "bees given", "shook in bees", "shook bees in",
        "added nurse bees", "gave nurse bees", "nurse bees added", "shook in nurse bees",
        "boosted with bees", "more bees added",
    ),
    EntryKind.QUEEN_TAKEN: (
        "took queen", "took the queen", "took her", "queen taken", "caught queen",
        "caught the queen", "caught her", "queen caught", "pulled queen", "pulled the queen",
        "pulled her", "queen pulled", "removed queen", "removed the queen", "queen removed",
        "harvested", "harvested queen", "moved queen", "moved the queen", "queen moved",
        "caught and caged", "caged and took", "collected queen", "queen went", "took laying queen",
        "moved her", "queen harvested", "pulled a queen", "took a queen", "caught a queen",
    ),
    EntryKind.ROBBED: (
        "robbed", "being robbed", "robbing", "robbed out", "robbers", "getting robbed",
    ),
    EntryKind.ABSCONDED: (
        "absconded", "gone", "absconding", "flew off", "flew away", "cleared out",
        "bees gone", "bees left", "all flown", "upped and left", "colony gone", "bees all gone",
    ),
    EntryKind.DEAD: (
        "dead out", "deadout", "colony dead", "dead colony", "unit dead",
        "died out", "nuc dead", "bees all dead", "bees dead", "whole unit dead", "all bees dead",
    ),
    EntryKind.COMBINED: ("combined", "merged", "united", "combine", "newspapered"),
    EntryKind.PUT_OFF: (
        "skip", "skipped", "put off", "postpone", "postponed", "leave", "leave it", "leave alone",
        "wait", "later", "delay", "delayed", "push", "pushed", "hold off", "hold", "check again",
        "look again", "snooze", "leave them", "leave her", "put it off", "remind me",
        "recheck", "leave be",
    ),
    EntryKind.YARD_TAKEN: (
        "taking", "i take", "i will take", "i am taking", "i got", "doing", "i am doing",
        "i will do", "heading to", "i am off to", "going to", "on my way to", "off to",
    ),
}  # fmt: skip
"""Kind of finding -> the phrases that mean it. Shorter phrases yield to longer ones."""
