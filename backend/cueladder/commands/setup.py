"""The set-up code for a first club."""

from __future__ import annotations

import click

from .context import bring_up_to_date, in_app


@click.command()
@click.option("--address", help="Address of the site, e.g. https://club.example; for the link.")
@click.pass_obj
def setup(config: dict[str, str], address: str | None) -> None:
    """Print the one-time code that sets up the first club (a new one ends the last)."""
    with in_app(config):
        from ..store.access.accounts import new_setup_code

        bring_up_to_date()
        made = new_setup_code()
    click.echo(f"Set-up code: {made.code}")
    click.echo(f"It works once, until {made.expires_at.astimezone():%Y-%m-%d %H:%M}.")
    if address:
        click.echo(f"Open {address.rstrip('/')}/setup#{made.code}")
    else:
        click.echo("Open /setup on the site and enter it.")
