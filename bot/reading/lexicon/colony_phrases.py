"""Phrases about the colony, its food, traps and end; phrases that mean a finding and its value."""

from itertools import product

from scheduling.entry_kinds import EntryKind
from scheduling.values import (
    Brood,
    DayWeather,
    Fate,
    Flying,
    Forage,
    Pattern,
    Stores,
    Taken,
    TrapCount,
    Value,
    YardForage,
)

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
    EntryKind.EMPTIED: (
        "emptied", "emptied out", "emptied it", "emptied box", "was emptied", "is emptied",
    ),
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


_GOOD = (
    "good", "nice", "solid", "great", "lovely", "perfect", "even", "tight", "beautiful",
    "excellent", "fantastic", "wall to wall", "super", "compact", "full",
)  # fmt: skip
_SPOTTY = (
    "spotty", "patchy", "shotgun", "scattered", "uneven", "spotted", "pepperpot", "pepper pot",
    "poor", "gappy", "holey", "shot", "broken", "bad", "pepper box",
)  # fmt: skip
_BROOD = (
    "brood", "pattern", "sealed brood", "capped brood", "worker brood", "brood pattern",
    "sealed worker brood", "sealed pattern", "laying pattern", "capped worker brood",
)  # fmt: skip


def _both_ways(looks: tuple[str, ...]) -> tuple[str, ...]:
    pairs = tuple(product(looks, _BROOD))
    capped = tuple(f"{state} {look}" for state in ("capped", "sealed") for look in looks)
    return (
        capped
        + tuple(f"{look} {brood}" for look, brood in pairs)
        + tuple(f"{brood} {link}{look}" for look, brood in pairs for link in ("", "is ", "looks "))
    )


def _queen(*verbs: str) -> tuple[str, ...]:
    said = ("{0} queen", "{0} the queen", "queen {0}", "{0} her", "{0}", "{0} a queen")
    return tuple(form.format(verb) for verb in verbs for form in said)


VALUED: tuple[tuple[EntryKind, Value | None, tuple[str, ...]], ...] = (
    (EntryKind.SEALED_BROOD, Brood(Pattern.GOOD), (*_both_ways(_GOOD), "solid", "solid capped",
      *(f"{brood} {look} pattern" for brood in ("capped brood", "sealed brood", "brood",
        "capped worker brood", "sealed worker brood") for look in _GOOD),
      "wall to wall", "slab of brood", "nice slab of brood", "solid slab of brood")),
    (EntryKind.SEALED_BROOD, Brood(Pattern.SPOTTY), (*_both_ways(_SPOTTY), "spotty", "patchy",
      "shotgun", "shotgun pattern", "pepperpot", "pepper pot", "brood all over the place",
      "brood full of holes", "holes in the brood",
    )),
    (
        EntryKind.SEALED_BROOD,
        None,
        ("sealed brood", "capped brood", "sealed worker brood", "capped worker brood",
         "worker brood sealed", "worker brood capped", "brood sealed", "brood capped",
         "has sealed brood", "brood is sealed", "brood is capped", "sealed worker",
         "capped worker", "capped cells of worker", "sealed brood seen", "worker brood"),
    ),
    (
        EntryKind.STORES,
        Stores(0.0),
        ("no food", "no stores", "out of food", "no honey", "no feed left", "no food left",
         "nothing to eat", "without food", "zero food", "no food at all", "no stores left"),
    ),
    (
        EntryKind.TRAP_SERVICED,
        TrapCount(0),
        ("no beetles", "zero beetles", "without beetles", "trap no beetles", "beetle free"),
    ),
    (EntryKind.QUEEN_TAKEN, Taken(Fate.SOLD), _queen("sold", "caught and sold")),
    (EntryKind.QUEEN_TAKEN, Taken(Fate.BANKED), (*_queen("banked", "caught and banked"),
        "in the bank", "to bank", "put in bank", "put in the bank",
        "put her in the bank", "into the bank", "into bank", "in bank", "and banked", "to the bank",
    )),
    (EntryKind.QUEEN_TAKEN, Taken(Fate.USED), _queen("used")),
    (
        EntryKind.WEATHER_SEEN,
        DayWeather(Flying.NOT_FLYING),
        ("rained", "rained all day", "rain", "raining", "rain all day", "rainy", "wet all day",
         "no flying", "not flying", "no bees flying", "bees not flying", "not flying weather",
         "no flying weather", "too cold to fly", "too wet to fly", "too windy to fly", "too windy",
         "too cold", "washed out", "poured", "poured all day", "raining all day", "pouring",
         "no flying day", "bad flying day", "no good for flying", "no flying today",
         "cold and wet", "wet and cold", "bees are not flying", "could not fly",
         "no flight weather", "drizzle all day", "storm all day", "rained off",
         "no mating weather", "not a flying day", "rained hard", "no mating flights",
         "no queens flying", "windy no flying", "bucketing down",
         "chucking it down", "rain stopped play", "it poured", "too cold for flying",
         "no flight day", "so no queens flying", "no flying yesterday", "no bees out",
         "too wet for flying",
         "cold and windy", "wet and windy", "foul weather", "no queens flew", "no flights"),
    ),
    (
        EntryKind.WEATHER_SEEN,
        DayWeather(Flying.FLYING),
        ("good flying day", "flying day", "flying weather", "good flying weather", "bees flying",
         "flying well", "good mating weather", "mating weather", "bees are flying",
         "great flying day", "nice flying day", "warm and sunny", "sunny and warm",
         "perfect flying day", "perfect flying weather", "good mating day", "flying all day",
         "bees flew", "flew all day", "bees flew well", "good day for flying",
         "good day for mating", "great flying weather", "lots of flying", "queens flying",
         "plenty of flying", "sunny lots of flying", "sunny day lots of flying", "good flying",
         "great flying", "lovely flying weather", "lovely flying day", "fine flying weather",
         "queens could fly",
         "flying strong", "flying like mad", "warm enough to fly", "flew well"),
    ),
    (
        EntryKind.FORAGE_SEEN,
        YardForage(Forage.FLOW),
        ("nectar flow", "flow", "flow is on", "flow on", "honey flow", "strong flow", "good flow",
         "main flow", "flow started", "flow has started", "flow begun", "flow has begun",
         "nectar coming in", "nectar is coming in", "nectar flow is on", "nectar flow started",
         "honey flow is on", "honey flow started", "good nectar flow", "nectar flow has started"),
    ),
    (
        EntryKind.FORAGE_SEEN,
        YardForage(Forage.DEARTH),
        ("dearth", "in dearth", "in a dearth", "dearth started", "dearth has started",
         "nectar dearth", "summer dearth", "dearth is on", "no flow", "no nectar flow",
         "flow is over", "flow over", "flow has ended", "flow ended", "flow stopped",
         "flow has stopped", "nothing coming in", "no nectar", "no nectar coming in",
         "no forage", "no honey flow"),
    ),
)  # fmt: skip
"""Kind, value and the phrases that mean the two together."""
