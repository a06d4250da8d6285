"""What is printed at the terminal: no letter of it moves the cursor or turns the line around."""

import click


def show(text: str = "", *, err: bool = False) -> None:
    """Print lines; control characters in what somebody wrote are left out."""
    # Loaded only here, since the help is told without it.
    from scheduling.plain_text import storable

    click.echo(storable(text), err=err)
