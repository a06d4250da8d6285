"""The small words: those that may be dropped, and those that turn a sentence."""

from bot.reading.lexicon.chatter import CHATTER, IDLE_REMARKS
from bot.reading.lexicon.sense import Role

ROLES: dict[Role, tuple[str, ...]] = {
    Role.QUIET: (
        "the", "a", "an", "in", "on", "of", "at", "is", "are", "was", "were", "has", "have", "had",
        "it", "its", "she", "her", "i", "we", "they", "them", "there", "here", "this", "that",
        "with", "from", "into", "for", "to", "today", "now", "just", "each", "apiece", "per",
        "my", "our", "some", "did", "do", "does", "been", "be", "as", "by", "hi", "hello", "hey",
        "please", "thanks", "thank you", "thx", "unit", "units", "box", "boxes", "nuc", "nucs",
        "me", "so", "hive", "side", "compartment", "i have", "she has", "yard", "his", "number",
        "all day", "inside", "both", "one in", "all day long", *CHATTER,
    ),
    Role.REMARK: (
        "saw", "seen", "see", "found", "find", "spotted", "got", "checked", "looked", "look",
        "opened", "ok", "okay", "yes", "yep", "comb", "colony", "old", "nice", "good", "finally",
        "already", "still", "yet", "any", "sign", "signs", "sign of", "signs of", "any sign of",
        "evidence of", "well", "up", "lots of", "plenty of", "lots", "few", "a few", "done", "new",
        "report", "update", "worker", "really", "very", "also found", "bit", "lovely", "young",
        "one", "again", "alone", "having", "present", "visible", "spied", "showing", "mated",
        "marked", "running", "running around", "walking", "walking about", "opened up", "in it",
        "in them", "in there", "check out", "going well", "looking", "starting", "clearly",
        "definitely", "only", "just did", "i did", "we did", "back", "certainly", "also got",
        *IDLE_REMARKS,
    ),
    Role.NEGATION: (
        "no", "not", "without", "never", "no sign of", "no signs of", "not any",
        "not see", "not find", "no evidence of", "not a", "not one", "not been",
        "not see any", "not find any", "not seeing", "not any sign of", "not see any sign of",
        "failed to see", "could not find", "could not see", "can not find",
        "can not see", "did not see", "did not find",
        "lacking", "zero", "yet to be", "nor", "not seen any",
    ),
    Role.NOT_SEEN: ("not seen", "not found", "not there", "not present", "unseen", "not spotted"),
    Role.OR: ("or",),
    Role.EXCEPT: (
        "except", "except for", "besides", "apart from", "excluding", "other than", "but not",
        "bar", "minus", "excl", "save for", "all but", "aside from", "not counting", "leaving out",
    ),
    Role.MAYBE_EXCEPT: ("but",),
    Role.SAME: (
        "same", "ditto", "same again", "same as before", "same thing", "the same", "same for",
        "same story", "so is", "so are", "so has", "so have", "so does", "same here", "same with",
        "idem",
    ),
    Role.TOO: ("too", "also", "as well", "likewise"),
    Role.CORRECTION: (
        "oops", "correction", "sorry", "i meant", "scratch that", "my mistake", "wrong",
        "whoops", "make that", "should be", "should have been", "meant", "i mean", "actually",
        "my bad", "fix", "mistake", "no wait", "wait no", "i meant to say", "meant to say",
        "i should have said", "no sorry", "sorry no", "typo", "ignore that", "strike that",
        "no hang on", "i was wrong", "got that wrong", "i got that wrong", "correcting",
    ),
    Role.EVERYTHING: (
        "all", "everything", "all units", "every unit", "all of them", "the lot", "all boxes",
        "every box", "everyone", "everybody", "all the units", "the whole yard", "whole yard",
        "all the boxes",
    ),
    Role.SEPARATOR: ("and", "then", "while", "whereas", "plus"),
}  # fmt: skip
"""Role -> its phrases."""
