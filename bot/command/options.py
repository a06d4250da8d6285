"""Options and argument types that several commands share."""

from datetime import date, datetime

import click

from bot.command.group import Call

pass_call = click.make_pass_decorator(Call)


class Day(click.ParamType[date]):
    """A date as 2027-05-12."""

    name = "date"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> date:
        """Read the date, or fail with a line that shows the form."""
        if isinstance(value, datetime):
            return value.date()
        if isinstance(value, date):
            return value
        try:
            return date.fromisoformat(str(value))
        except ValueError:
            self.fail(f"{value!r} is not a date; write it as 2027-05-12", param, ctx)


on_option = click.option("--on", "on", type=Day(), metavar="DATE", help="As if today were DATE.")
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON.")
