"""Short forms written out before a text is cut into words: contractions, signs, letters."""

import re

_CONTRACTIONS = (
    (r"\b(?:can't|cant|cannot)\b", "can not"),
    (r"\b(?:won't|wont)\b", "will not"),
    (r"\b(?:ain't|aint)\b", "is not"),
    (r"\b(did|does|do|is|was|were|has|have|had|could|would|are)n'?t\b", r"\1 not"),
    (r"\b(did|does|is|was|has|have) nt\b", r"\1 not"),
    (r"'ll\b", " will"),
    (r"\b(she|he|it|that|there|here|what|who)'?s\b(?!')", r"\1 is"),
    (r"'(?:s|re|ve|m)\b", ""),
    (r"\bi'?m\b", "i am"),
    (r"\b(i|we|they)'?ve\b", r"\1 have"),
)
_SIGNS = (
    (r"\bw/o\b", "without "),
    (r"\bw/", "with "),
    (r"\bw(?= \d)", "with"),
    (r"(?<=\d)\s*½", ".5"),
    (r"½", " half "),
    (r"¼", " quarter "),
    (r"¾", " 0.75 "),
    (r"#\s?(?=\d)", " "),
    ("[👍🙂😀🐝🎉🥳😊😄😁🙏👌❤️😅😂🤣🍯✅✔]+", " "),
)
_LETTERS = (
    (r"\bq ?\+", "queen seen "),
    (r"\bq-(?!\w)", "q minus "),
    (r"\bvq\b", "virgin queen"),
    (r"\bq\b(?! ?minus)", "queen"),
)
_NEARLY = (
    (
        r"(?:\b(?:about|around|roughly|approximately|circa)\s|\bapprox\b\.?\s?|~\s?)"
        r"(?=(?:\d+|an?|half|quarter|one|two|three|four|five|six|eight|ten|twelve|twenty|thirty)\b)",
        "",
    ),
)
"""Words that make a number less sure; it is kept as the number said."""
_HAS = r"(?: (?:has|have|had|is|are|was|were|got|shows?|with)\b)*(?: any\b)?"
_UNIT = r"(?:box(?:es)? |unit )?\d+[a-h]*(?:-[a-h\d]+)?"
_NONE_OF = (
    (rf"\bneither ({_UNIT}) n?or ({_UNIT}){_HAS}", r"\1 and \2 no"),
    (r"\bneither (\w+) n?or (\w+)\b", r"no \1 and no \2"),
    (rf"\b(?:none|not one|not any) of ({_UNIT}){_HAS}", r"\1 no"),
    (rf"\b(?:none|not one) of (?:them|the (?:cells|queens|units)){_HAS}(?= \w)", "not"),
)
"""Denials that stand before the units they speak of."""
_HEARD = (
    (
        r"\b(the|a|an|queen|dead|ripe|old|new|dud|day|empty|sealed|capped|her|bad|good|torn|their)"
        r" sell(s?)\b",
        r"\1 cell\2",
    ),
    (r" full stop\b\.?", "."),
    (r" comma\b,?", ","),
    (r" (?:new ?line|next line)\b", "\n"),
    (r"\b(box(?:es)?|unit|nuc) for\b", r"\1 four"),
    (r"\b(box(?:es)?|unit|nuc) (?:to|too)\b", r"\1 two"),
    (r"\b(box(?:es)?|unit|nuc) won\b", r"\1 one"),
    (r"\b(box(?:es)?|unit|nuc) ate\b", r"\1 eight"),
)
"""What a phone hears: "sell" for cell, "box for" for box four."""

_REWRITES = tuple(
    (re.compile(pattern, re.IGNORECASE), plain)
    for pattern, plain in (
        *_CONTRACTIONS, *_SIGNS, *_LETTERS, *_NEARLY, *_NONE_OF, *_HEARD,
    )
)  # fmt: skip


def written_out(text: str) -> str:
    """Give the text with its short forms written out and its signs made plain."""
    for odd, usual in (("\u2019", "'"), ("\u2018", "'"), ("\u2013", "-"), ("\u2014", "-")):
        text = text.replace(odd, usual)
    for pattern, plain in _REWRITES:
        text = pattern.sub(plain, text)
    return text
