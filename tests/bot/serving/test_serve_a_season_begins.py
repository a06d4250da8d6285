"""From the first word to the first morning, over HTTP."""

from bot.wording.cautions import cautions
from deploy.standins.bot_api_standin import BotApiStandin
from tests.bot.serving.served import (
    ADA,
    MILO,
    Service,
    ask,
    invite_link_in,
    shown,
    wait_for,
    with_crew,
)

TREES = ("Alder", "Ash", "Birch", "Elm", "Fir", "Hazel", "Holly", "Lime", "Maple", "Oak", "Yew")
MANY = [f"Yard {tree} Behind The Long Stone Wall" for tree in TREES]
EVE = 13
"""An invented chat of somebody with a code that was used."""


def test_a_founder_sets_up_and_a_partner_joins_by_link(
    api: BotApiStandin, service: Service
) -> None:
    with service.running():
        assert "Welcome Ada" in ask(api, ADA, "/begin")
        assert "Quiet never" in ask(api, ADA, "quiet off"), "the test runs at whatever hour it is"
        assert "River" in ask(api, ADA, "new yard River")
        assert "6 units" in ask(api, ADA, "boxes 1-2 of 3")
        assert "Noted" in ask(api, ADA, "10 day cells in 1a-c")
        code = invite_link_in(ask(api, ADA, "invite"))
        before = len(shown(api, ADA))

        assert "share the yards of Ada" in ask(api, MILO, f"/start {code}", "Milo")
        assert wait_for(api, ADA, before + 1)[-1] == "Milo joined your crew."
        assert "Quiet never" in ask(api, MILO, "quiet off", "Milo")
        assert "not good" in ask(api, EVE, f"/start {code}", "Eve")
        assert service.person(EVE) is None

        assert "Noted" in ask(api, MILO, "1a dud", "Milo")
        assert "Milo" in ask(api, ADA, "1a")
        api.wait_until(lambda: cautioned(api) == [ADA, MILO], "a caution for each")


def cautioned(api: BotApiStandin) -> list[int]:
    """The chats that were sent the yearly caution, in order."""
    return [sent.chat for sent in api.sent if sent.text == cautions()]


def test_the_morning_comes_at_the_persons_own_time_with_buttons(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service, ADA, "Ada")
    with_crew(service, MILO, "Milo")
    service.make_morning_due(ADA)
    with service.running():
        (told,) = wait_for(api, ADA, 1)
        assert "Look for eggs 1 2" in told
        labels = [text for row in api.sent[0].buttons for _, text in row]
        assert "1 2 eggs" in labels
        assert "Noted: 1 2 eggs" in ask(api, ADA, labels[labels.index("1 2 eggs")])

    assert shown(api, MILO) == []


def test_a_reply_is_noted_and_undone(api: BotApiStandin, service: Service) -> None:
    with_crew(service)
    with service.running():
        assert "Noted: 1a eggs" in ask(api, ADA, "1a eggs")
        assert "Undone: 1a eggs" in ask(api, ADA, "/undo")

    assert service.kinds(ADA, "1a")[1:] == ["eggs", "strike"]


def test_a_button_tapped_twice_is_one_entry_and_one_answer(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service)
    service.make_morning_due(ADA)
    with service.running():
        wait_for(api, ADA, 1)
        morning = api.sent[0]
        for _ in range(2):
            api.push_tap(ADA, morning.message_id, "1 2 eggs")
        api.wait_until(lambda: len(api.answered_taps) == 2, "both taps")
        # A tap is confirmed before its answer leaves.
        wait_for(api, ADA, 2)
        ask(api, ADA, "due")

    assert len(shown(api, ADA)) == 3
    assert service.kinds(ADA, "1a").count("eggs") == 1


def test_more_gives_what_did_not_fit_into_a_long_answer(
    api: BotApiStandin, service: Service
) -> None:
    with_crew(service, yards=MANY)
    with service.running():
        first = ask(api, ADA, "week")
        assert first.endswith("type more")
        told = [first]
        while told[-1].endswith("type more"):
            told.append(ask(api, ADA, "more"))
        assert "That was all" in ask(api, ADA, "more")

    assert all(yard in "".join(told) for yard in MANY)
