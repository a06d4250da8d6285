"""By how many days a crew's own odds move what the published calendars say."""

from dataclasses import dataclass

from scheduling.trade.window import Window, days_after


@dataclass(frozen=True)
class Shift:
    """Days by which the dates of a look for eggs, and of giving up, are later; earlier if negative.

    It is the same for every queen: what the odds move for one that is out on day 0, in fair
    weather, held against the usual odds. The usual odds move nothing.
    """

    not_before: int = 0
    best: int = 0
    latest: int = 0
    give_up: int = 0

    def look(self, window: Window) -> Window:
        """Move the window of a look."""
        if not (self.not_before or self.best or self.latest):
            return window
        return Window(
            days_after(window.not_before, self.not_before),
            days_after(window.best, self.best),
            days_after(window.by, self.latest),
        )


NO_SHIFT = Shift()
