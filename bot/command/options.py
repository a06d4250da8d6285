"""Options and argument types that several commands share."""

from datetime import date, datetime

import click

from bot.command.call import Call

pass_call = click.make_pass_decorator(Call)

_YEARS = range(2000, 2200)
"""Years that may be meant; beyond them it is a typing slip."""


class Day(click.ParamType[date]):
    """A date as 2027-05-12."""

    name = "date"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> date:
        """Read the date, or fail with a line that shows the form."""
        if isinstance(value, datetime):
            return value.date()
        day = value if isinstance(value, date) else self._read(str(value), param, ctx)
        if day.year not in _YEARS:
            self.fail(f"{value!r} is too far from today", param, ctx)
        return day

    def _read(self, text: str, param: click.Parameter | None, ctx: click.Context | None) -> date:
        try:
            return date.fromisoformat(text)
        except ValueError:
            self.fail(f"{text!r} is not a date; write it as 2027-05-12", param, ctx)


on_option = click.option("--on", "on", type=Day(), metavar="DATE", help="As if today were DATE.")
crew_option = click.option(
    "--crew", "crew", type=int, metavar="N", help="In which crew, as `yardbell crews` numbers it."
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON.")
