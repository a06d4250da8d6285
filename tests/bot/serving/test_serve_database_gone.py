"""The database's file is deleted under the running program: said at once, and nothing confirmed."""

import pytest

from deploy.standins.bot_api_standin import BotApiStandin
from tests.bot.serving.served import ADA, Service, ask, shown, wait_for, with_crew
from tests.bot.serving.test_serve_database_faults import until_said


def test_nothing_more_is_confirmed_until_the_file_is_back(
    api: BotApiStandin, service: Service, caplog: pytest.LogCaptureFixture
) -> None:
    with_crew(service)
    engine = service.engine
    file = service.folder / "yardbell.sqlite"
    with service.running(engine):
        ask(api, ADA, "due")
        away = file.rename(service.folder / "away.sqlite")
        until_said(caplog, "deleted or replaced")
        pushed = api.push_text(ADA, "1a eggs")
        until_said(caplog, "trying again")
        assert pushed.update_id in api.unconfirmed
        assert len(shown(api, ADA)) == 1
        assert not file.exists()

        away.rename(file)
        assert "Noted: 1a eggs" in wait_for(api, ADA, 2)[1]
    assert service.kinds(ADA, "1a") == ["cell_placed", "eggs"]
