"""Words about a way that was added to reach a person."""

from bot.channels.traits import traits_of
from bot.wording.plain_letters import to_gsm7


def way_added(channel: str) -> str:
    """Tell a person that they are reached over a further channel from now on."""
    traits = traits_of(channel)
    shown = (traits.shown_as or channel).capitalize()
    typed = "number" if traits.needs_consent else _shortest(traits.typed_as, channel)
    return to_gsm7(f"{shown} was added as a way to reach you. Was it not you? Type: remove {typed}")


def another_number() -> str:
    """Tell a number that its person is reached at another one from now on."""
    return (
        "Yardbell is to text another number of yours now, and this one no more. Was it not you? "
        "Tell the owner of your crew."
    )


def _shortest(typed: tuple[str, ...], channel: str) -> str:
    return min(typed, key=len, default=channel)
