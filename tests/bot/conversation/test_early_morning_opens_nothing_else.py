"""Who asked for an early or late morning gets that, and nothing else, in their quiet hours."""

from datetime import timedelta

import pytest
from sqlalchemy import Engine

from tests.bot.conversation.lines import DAY, MILO, NILS, Lines, crew_of_ada

NEXT = DAY + timedelta(days=1)


@pytest.mark.parametrize(
    ("asked", "hour", "minute"),
    [("morning 5:45", 11, 10), ("morning 21:30", 2, 40)],
    ids=["6:10 there", "21:40 there"],
)
def test_news_by_text_waits_for_eight_all_the_same(
    engine: Engine, asked: str, hour: int, minute: int
) -> None:
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "invite Milo 202 555 0123")
    lines.text(MILO, "yes")
    lines.text(MILO, asked)
    code = lines.say("Ada", "invite").split("join ")[1][:6]

    lines.at(NEXT, hour, minute).text(NILS, f"join {code}")
    lines.deliver()
    assert not any(text.endswith("joined your crew.") for text in lines.texts.to(MILO))
    lines.at(NEXT, 13).deliver()
    assert lines.texts.to(MILO)[-1].endswith("joined your crew.")
