"""Phrases about the colony: its food, its traps, its boosts and its end; and about visits."""

from scheduling.entry_kinds import EntryKind

OF_COLONIES: dict[EntryKind, tuple[str, ...]] = {
    EntryKind.FED: (
        "fed", "syrup", "sugar water", "sirup", "fed syrup", "topped up", "topped up feeder",
        "filled feeder", "feeder filled", "filled the feeder", "refilled feeder", "fed them",
        "refilled", "topped off", "gave feed", "gave syrup", "fed again", "given syrup",
        "topped up the feeder", "topped up feeders", "topped the feeder up", "filled the feeders",
        "refilled the feeder", "refilled the feeders", "filled their feeder", "feeder topped up",
        "feeder refilled", "gave them syrup", "fed sugar syrup", "sugar syrup", "fed sugar water",
        "filled up the feeder", "topped up the feeders", "fed it", "fed her", "a feed",
        "gave a feed", "gave food", "give food", "i give food", "i gave food", "gave some feed",
        "gave them a feed", "gave some food", "given a feed", "top up", "filled up feeder",
    ),
    EntryKind.TRAP_SET: (
        "trap set", "traps set", "set trap", "set traps", "set a trap", "trap placed", "new trap",
        "new traps", "trap in", "traps in", "trap put in", "placed trap", "put trap in",
        "beetle trap in", "beetle traps in", "trap added", "traps added", "trap fitted",
        "put in a trap", "put a trap in", "put in a beetle trap", "put a beetle trap in",
        "put beetle trap in", "put in beetle trap", "put traps in", "put in traps", "hung a trap",
        "beetle trap set", "beetle traps set", "set a beetle trap", "set beetle traps",
        "fitted a trap", "fitted a beetle trap", "new beetle trap", "new beetle traps",
    ),
    EntryKind.TRAP_SERVICED: (
        "trap serviced", "traps serviced", "trap emptied", "traps emptied", "emptied trap",
        "emptied traps", "emptied the trap", "trap cleaned", "traps cleaned", "cleaned trap",
        "cleaned traps", "trap changed", "traps changed", "changed trap", "changed traps",
        "serviced trap", "serviced traps", "trap oil changed", "trap refilled", "trap done",
        "traps done", "serviced the trap", "cleaned the trap", "emptied the traps", "trap clean",
        "traps clean", "changed the trap", "changed the oil", "oil changed", "new oil in trap",
        "trap oil topped up", "emptied the beetle trap", "emptied beetle trap",
        "beetle trap emptied", "cleared the trap", "beetle traps emptied",
        "cleaned the beetle trap", "oil trap changed", "oil trap emptied", "emptied beetle traps",
        "trap cleared", "fresh oil in trap", "fresh oil in the trap", "beetle trap cleaned",
        "beetle trap serviced",
    ),
    EntryKind.BROOD_ADDED: (
        "brood added", "added brood", "gave brood", "brood given", "boosted with brood",
        "put brood in", "put in brood", "put in a frame of brood", "gave sealed brood",
        "added sealed brood", "added a brood frame", "boosted brood", "gave them brood",
        "brood frame added", "added brood frame", "gave a brood frame",
    ),
    EntryKind.BEES_ADDED: (
        "bees added", "added bees", "gave bees", "bees given", "shook in bees", "shook bees in",
        "added nurse bees", "gave nurse bees", "nurse bees added", "shook in nurse bees",
        "boosted with bees", "shook bees into", "shook some nurse bees in",
        "shook some nurse bees into", "shook some bees into", "shook nurse bees in",
        "shook some bees in", "shook in some bees", "shook nurse bees into", "put in bees",
        "put bees in", "boosted bees", "more bees added",
    ),
    EntryKind.ROBBED: (
        "robbed", "being robbed", "robbing", "robbed out", "robbers", "getting robbed",
        "wasps robbing", "robbed by wasps", "robbed out by wasps", "robbed blind", "wasps got in",
        "robbed by other bees", "been robbed", "being robbed out", "robbed dry",
    ),
    EntryKind.ABSCONDED: (
        "absconded", "gone", "absconding", "flew off", "flew away", "cleared out", "bees gone",
        "bees left", "gone away", "bees are gone away", "bees went away", "they have all left",
        "they all left", "all left", "bees have gone", "bees are gone", "bees have left",
        "they left", "up and left", "bees have all gone", "bees all left", "bees have absconded",
        "all flown", "upped and left", "colony gone", "bees all gone",
    ),
    EntryKind.DEAD: (
        "dead out", "deadout", "colony dead", "dead colony", "unit dead", "died out", "nuc dead",
        "bees all dead", "bees dead", "whole unit dead", "starved", "starved out",
        "starved to death", "all starved", "everything dead", "dead as a doornail",
        "is a dead out", "colony died", "bees dead in a pile", "all the bees dead",
        "all the bees are dead", "bees all died", "froze to death", "died off", "all bees dead",
    ),
    EntryKind.COMBINED: (
        "combined", "merged", "united", "combine", "newspapered", "joined", "uniting",
        "combining", "merging"),
    EntryKind.PUT_OFF: (
        "skip", "skipped", "put off", "postpone", "postponed", "leave", "leave it", "leave alone",
        "wait", "later", "delay", "delayed", "push", "pushed", "hold off", "hold", "check again",
        "look again", "snooze", "leave them", "leave her", "put it off", "remind me", "recheck",
        "leave be", "leaving it", "leaving", "leaving them", "leaving her", "leaving alone",
        "come back", "come back to", "will do", "will check", "did not get to", "could not get to",
        "not get to", "ran out of time for", "no time for", "did not have time for",
        "not have time for", "will look", "i will check", "i will look", "move to", "do it",
        "will do it", "look in again", "bump", "not until", "not till", "reschedule",
        "rescheduled", "remind me about", "remind me of", "will open", "will open it",
        "will get to", "open it", "will look at", "will visit", "open again", "try again",
        "push back", "pushed back", "check back", "hold off on", "revisit", "next look",
        "check on", "remind me to check", "leave for", "check", "look at it again",
    ),
    EntryKind.YARD_TAKEN: (
        "taking", "i take", "i will take", "i am taking", "i got", "doing", "i am doing",
        "i will do", "heading to", "i am off to", "going to", "on my way to", "off to",
    ),
}  # fmt: skip
"""Kind of finding -> the phrases that mean it."""
