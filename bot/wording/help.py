"""Help, the menu of commands, words around the demo, and what is said of unusable messages."""

MENU = {
    "due": "What to open today",
    "tomorrow": "What comes tomorrow",
    "week": "The next seven days",
    "queens": "Queens ready to take",
    "failing": "Units that need help",
    "undo": "Take back what you last said",
    "help": "What you can type",
    "cautions": "What can hurt you",
}


LONGEST_TEXT = 4096
"""Characters of a text that is read; one Telegram message, from memory."""


def help_words() -> str:
    """Show what can be typed, in at most three SMS segments."""
    return (
        "Say what you saw, units first or last: 4a-c eggs, 5b no eggs, 6c dud\n"
        "4 out; 4a released; good brood 4; fed 2 1 qt; trap 4 12 beetles; 4b sold\n"
        "Start: 10 day cells in 1-4; 3 day virgin in 5a; 6b caged queen; grafted 40\n"
        "4b skip till fri, 4b note mild, rained all day, yesterday 4a eggs\n"
        "Ask: due, week, queens, failing, 4b, plan 9 queens by 9 june\n"
        "undo, oops 5b eggs, stop, cautions\n"
        "Set up: new yard, boxes 1-9 of 3, morning 6:30, days sat sun, invite, add chat"
    )


def too_long() -> str:
    """Refuse a text longer than is read."""
    return f"That text is too long (over {LONGEST_TEXT} characters). Nothing noted. Send it in two."


def text_only() -> str:
    """Answer a picture, voice message or sticker."""
    return "I read text only. Nothing noted. Type help for what to send."


def nothing_more() -> str:
    """Say that there is no rest of a message to give."""
    return "That was all. Type due for today."


def went_wrong() -> str:
    """Say that we failed and the message was not used."""
    return "Something went wrong on my side. Nothing noted. Please say it another way."


def demo_welcome(owner: str, partner: str) -> str:
    """How the demo begins at a terminal."""
    return (
        f"An invented season. It is 6:30 on Wednesday 12 May 2027, and the phones of {owner} and "
        f"{partner} buzz.\nAnswer as {owner}, as in: river 1a-c eggs, 2a no eggs. Type help for "
        f"more, '{partner}: due' to speak as {partner}, Ctrl-D to end.\n"
    )


def demo_played() -> str:
    """How the demo ends when it was played from its script."""
    return (
        "\nThat was an invented day. Start your own: yardbell chat --as NAME "
        "(or serve, once a Telegram token is set)."
    )
