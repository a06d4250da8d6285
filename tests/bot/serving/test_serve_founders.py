"""As the program comes, a stranger founds no crew; with a code of the machine's owner they do."""

from deploy.standins.bot_api_standin import BotApiStandin
from tests.bot.serving.served import ADA, MILO, Service, ask


def test_a_code_made_at_the_machine_lets_one_stranger_begin(
    service: Service, api: BotApiStandin
) -> None:
    # Empty counts as not set.
    service.environment["YARDBELL_CREWS_FOUNDED_BY"] = ""
    with service.process():
        assert "A new crew needs a code here" in ask(api, ADA, "/begin")
        code = service.command("invite-crew").split()[0]
        assert "Welcome Ada" in ask(api, ADA, f"begin {code}")
        assert "not good" in ask(api, MILO, f"begin {code}", "Milo")

    assert service.person(MILO) is None
    said = "new crews  invited, 0 codes open; 1 wrong codes tried within a day"
    assert said in service.command("status")
