"""Phrases that mean a finding together with its value."""

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

_GOOD = (
    "good",
    "nice",
    "solid",
    "great",
    "lovely",
    "perfect",
    "even",
    "tight",
    "beautiful",
    "excellent",
    "fantastic",
    "wall to wall",
    "super",
    "compact",
    "full",
)
_SPOTTY = (
    "spotty",
    "patchy",
    "shotgun",
    "scattered",
    "uneven",
    "spotted",
    "pepperpot",
    "pepper pot",
    "poor",
    "gappy",
    "holey",
    "shot",
    "broken",
    "bad",
    "pepper box",
)
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
