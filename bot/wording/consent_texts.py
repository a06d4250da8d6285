"""What is said to phone numbers: asking, the yes, the stop, and those that nobody knows."""

from collections.abc import Sequence
from datetime import time

from bot.settings.founding import Founding
from bot.wording.days_and_numbers import clock
from bot.wording.plain_letters import to_gsm7


def asked(who: str) -> str:
    """The one message to a number: who asks, what will come, how to begin and how to stop."""
    return to_gsm7(
        f"{who} asks you into their bee yards: Yardbell would text you mornings when work is due, "
        "and answer yours. YES starts it, STOP ends it, HELP tells more."
    )


def asked_further(who: str) -> str:
    """The one message to a number that is somebody's of another crew; only they read it."""
    return to_gsm7(
        f"{who} asks you into their bee yards, beside yours: Yardbell would text you mornings "
        "for both. YES joins, no answer changes nothing, STOP ends all."
    )


def asked_own(who: str) -> str:
    """The one message to a number that somebody says is theirs."""
    return to_gsm7(
        f"{who} gave this as their number: Yardbell would text it mornings when bee work is due, "
        "and answer. YES starts it, STOP ends it, HELP tells more."
    )


def help_asked(who: str) -> str:
    """Help for a number that was asked and has not said yes."""
    return to_gsm7(
        f"Yardbell texts beekeepers what is due in their yards. {who} asked for you: ask {who}. "
        "Your carrier's rates apply. YES starts it, STOP ends it."
    )


def help_member(owner: str) -> str:
    """Help over text messages: what this is, whom to ask, how to stop.

    Args:
        owner: the name of the crew's owner; "" for the owner themselves.
    """
    ask = f"Questions: ask {owner}." if owner else "Questions: ask who runs it."
    return to_gsm7(
        f"Yardbell: texts on bee work due in your yards, and answers. {ask} "
        "Your carrier's rates apply. STOP ends it. What to type: more"
    )


def stranger(founding: Founding) -> str:
    """The short answer to a number that nobody invited; it tells nothing of anybody."""
    begin = {
        Founding.ANYBODY: " Your own yards: begin.",
        Founding.INVITED: " Your own yards: begin and a code from who runs this.",
        Founding.NOBODY: "",
    }[founding]
    return (
        "Yardbell, reminders for beekeepers. This number is not known here. With a code, "
        f"text: join and the code.{begin} STOP for silence."
    )


def refused() -> str:
    """Confirm to a number that is nobody's that it gets nothing more."""
    return "Stopped: no more messages from Yardbell to this number. START if you change your mind."


def number_added() -> str:
    """Confirm that a person's own number takes texts from now on."""
    return "Yes noted: Yardbell texts you at this number now. STOP ends it, HELP tells more."


def no_more_today() -> str:
    """The last answer by text that somebody gets on a day."""
    return (
        "That is all I answer by text today. What you send is noted all the same, and answers "
        "come again tomorrow. Your mornings come as ever."
    )


def consent_question(name: str | None, number: str, at: time | None = None) -> str:
    """Tell who asks that a number is asked, at a time of their clock or at once."""
    them, when = name or "They", f", {_when_quiet_ends(at)}" if at else ""
    return to_gsm7(
        f"I ask {number} once, by text{when}. "
        f"{them} must answer YES; till then I send nothing more."
    )


def asking_own(number: str, at: time | None = None) -> str:
    """Tell a person that their own number is asked, at a time of their clock or at once."""
    when = f" {_when_quiet_ends(at)}" if at else ""
    return to_gsm7(
        f"I ask {number} by text{when}. Answer YES there, then it takes your messages too."
    )


def _when_quiet_ends(at: time) -> str:
    return f"at {clock(at)} when the quiet hours end"


def unreadable(written: str, example: str) -> str:
    """Refuse a number that cannot be read."""
    return to_gsm7(f"I cannot read {written} as a phone number. Write it in full: {example}")


def no_texts() -> str:
    """Refuse to text where no carrier of texts is set up."""
    return "I have no way to text here. Type invite for a code that your partner sends me."


def ours() -> str:
    """Say that somebody of the crew has that number."""
    return "That number is in your crew already. Nothing sent."


def asked_before() -> str:
    """Refuse to ask a number twice."""
    return "I asked that number before, and ask once only. Type invite for a code they can send me."


def closed() -> str:
    """Refuse to ask a number, without saying why."""
    return "I may not text that number first. Type invite for a code that they can send me."


def too_many() -> str:
    """Refuse to ask more numbers while others have not answered."""
    return "Too many have not answered yet. Type invite for a code that your partner sends me."


def no_mobile(number: str) -> str:
    """Refuse to ask a number that can be no mobile phone's, as a premium one."""
    return to_gsm7(
        f"{number} is no number of a mobile phone, and I text no other. "
        "Type invite for a code that they can send me."
    )


def other_land(lands: Sequence[str]) -> str:
    """Refuse to ask a number of a land that is not among those set."""
    only = (
        f"I text only numbers of {', '.join(lands)} first." if lands else "I text no number first."
    )
    return f"{only} Type invite for a code that they can send me."


def asked_enough_today() -> str:
    """Refuse to ask one more number of this crew today."""
    return "Your crew asked enough numbers for a day. Tomorrow again, or type invite for a code."


def all_asked_enough_today() -> str:
    """Refuse to ask one more number today, for any crew of this machine."""
    return "Enough numbers were asked here for a day. Tomorrow again, or type invite for a code."


def said_no(name: str | None, number: str) -> str:
    """Tell who asked that the number wants no messages."""
    return to_gsm7(f"{name or number} said no to messages. I send nothing there.")


def did_not_reach(name: str | None, number: str, why: str) -> str:
    """Tell who asked that the question did not reach the number."""
    return to_gsm7(f"My question did not reach {name or number}: {why}.")
