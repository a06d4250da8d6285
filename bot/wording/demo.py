"""Words around the demo; everything in it is invented."""


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
