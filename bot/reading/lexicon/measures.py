"""Numbers, measures and days in words, and the limits beyond which a number is asked about."""

from enum import StrEnum


class Measure(StrEnum):
    """What a number counts, after conversion."""

    LITRES = "litres"
    FEEDERS = "feeders"
    KILOGRAMS = "kilograms"
    FRAMES = "frames"
    SHAKES = "shakes"
    BEETLES = "beetles"
    DAYS = "days"
    EGG_DAYS = "egg_days"
    """Days since the egg was laid."""
    HOURS = "hours"
    PERCENT = "percent"
    PARTS = "parts"
    """Sugar to water by weight."""


MEASURES: dict[str, tuple[Measure, float]] = {
    **dict.fromkeys(("quart", "quarts", "qt", "qts", "qrt"), (Measure.LITRES, 0.946353)),
    **dict.fromkeys(("pint", "pints", "pt", "pts"), (Measure.LITRES, 0.473176)),
    **dict.fromkeys(("gallon", "gallons", "gal", "gals"), (Measure.LITRES, 3.785412)),
    **dict.fromkeys(("cup", "cups"), (Measure.LITRES, 0.236588)),
    **dict.fromkeys(("litre", "litres", "liter", "liters", "l", "ltr"), (Measure.LITRES, 1.0)),
    **dict.fromkeys(("ml", "millilitre", "millilitres", "milliliters"), (Measure.LITRES, 0.001)),
    **dict.fromkeys(("jar", "jars", "feeder", "feeders"), (Measure.FEEDERS, 1.0)),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), (Measure.KILOGRAMS, 0.453592)),
    **dict.fromkeys(("kg", "kilo", "kilos", "kgs"), (Measure.KILOGRAMS, 1.0)),
    **dict.fromkeys(("gram", "grams", "g", "gm", "gms"), (Measure.KILOGRAMS, 0.001)),
    **dict.fromkeys(("frame", "frames", "fr"), (Measure.FRAMES, 1.0)),
    **dict.fromkeys(("shake", "shakes"), (Measure.SHAKES, 1.0)),
    **dict.fromkeys(("beetle", "beetles", "shb", "shbs"), (Measure.BEETLES, 1.0)),
    **dict.fromkeys(("day", "days"), (Measure.DAYS, 1.0)),
    **dict.fromkeys(("week", "weeks", "wk", "wks"), (Measure.DAYS, 7.0)),
    **dict.fromkeys(("hour", "hours", "hr", "hrs"), (Measure.HOURS, 1.0)),
    **dict.fromkeys(("percent", "%"), (Measure.PERCENT, 1.0)),
}
"""Word -> measure and what one of it is worth. US customary liquid measure; 1 lb = 0.453592 kg
(NIST Handbook 44, Appendix C; from memory)."""

NUMBERS: dict[str, float] = {
    "zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14,
    "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20,
    "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60,
}  # fmt: skip
FRACTIONS: dict[str, float] = {
    "half": 0.5, "quarter": 0.25, "third": 0.333, "quarters": 0.25, "thirds": 0.333,
    "halves": 0.5,
}  # fmt: skip
DOZEN = {"dozen": 12.0}

WEEKDAYS: dict[str, int] = {
    name: day
    for day, names in enumerate(
        (
            ("monday", "mon"), ("tuesday", "tue", "tues"), ("wednesday", "wed", "weds"),
            ("thursday", "thu", "thur", "thurs"), ("friday", "fri"), ("saturday", "sat"),
            ("sunday", "sun"),
        )
    )
    for name in names
}  # fmt: skip
"""Monday is 0."""

MONTHS: dict[str, int] = {
    name: month
    for month, names in enumerate(
        (
            ("january", "jan"), ("february", "feb"), ("march", "mar"), ("april", "apr"),
            ("may",), ("june", "jun"), ("july", "jul"), ("august", "aug"),
            ("september", "sep", "sept"), ("october", "oct"), ("november", "nov"),
            ("december", "dec"),
        ),
        start=1,
    )
    for name in names
}  # fmt: skip

LETTER_WORDS: dict[str, str] = {
    **{letter: letter for letter in "abcdefgh"},
    "ay": "a", "eh": "a", "alpha": "a", "alfa": "a",
    "be": "b", "bee": "b", "bravo": "b",
    "sea": "c", "charlie": "c",
    "dee": "d", "delta": "d",
    "echo": "e", "foxtrot": "f", "golf": "g", "hotel": "h",
}  # fmt: skip
"""How a compartment's letter is typed, dictated or spelled out, after a box number."""

MAY_BE_NUMBERS: dict[str, int] = {"to": 2, "too": 2, "for": 4, "won": 1, "ate": 8}
"""Words that dictation writes for a number; before a letter they are asked about."""

POSITIONS: dict[str, str] = {
    "left": "left", "right": "right", "middle": "middle", "center": "middle", "centre": "middle",
    "mid": "middle",
}  # fmt: skip


# Beyond these a reader asks rather than records: typos, not trade rules.
OLDEST_CELL_DAYS = 14.0
"""A cell's age since the graft; by then any queen is out."""
OLDEST_CELL_EGG_DAYS = 18.0
OLDEST_VIRGIN_DAYS = 40.0
OLDEST_LARVA_HOURS = 96.0
MOST_GRAFTED = 1000
MOST_PLANNED_QUEENS = 2000
MOST_SYRUP_LITRES = 12.0
"""In one unit at one time."""
MOST_FONDANT_KG = 8.0
MOST_FRAMES = 20.0
MOST_BEETLES = 2000
MOST_SHAKES = 20.0
LONGEST_PUT_OFF_DAYS = 60
MOST_BOXES = 500

LONGEST_MINUTES = 12 * 60
"""How long a message may be let arrive before the next channel is tried."""
