"""What the club's own lessons teach, on the command line."""

from __future__ import annotations

import json

import click

from .context import bring_up_to_date, in_app


@click.command()
@click.option("--club", "name", help="Name of the club; may be left out where there is one.")
@click.option("--numbers", is_flag=True, help="Print the file of numbers that may leave the club.")
@click.pass_obj
def learn(config: dict[str, str], name: str | None, numbers: bool) -> None:
    """Find what the club's own lessons say of how its fencers learn, and keep it for the page.

    Run it every week, e.g. by a timer; head coaches can ask for it on the page, too. Nothing is
    changed but the page itself.
    """
    with in_app(config):
        from ..evidence.learning.numbers import numbers_of
        from ..store.access.clubs import club_called, only_club
        from ..store.whole.learned import keep, work_out
        from ..story.learned import lines

        bring_up_to_date()
        club = club_called(name) if name else only_club()
        if club is None:
            known = "There is no club of that name." if name else "Say which club: --club NAME."
            raise click.ClickException(known)
        figures = work_out(club.id)
        keep(club.id, figures)
        if numbers:
            click.echo(json.dumps(numbers_of(figures), indent=2))
            return
        for line in lines(figures):
            click.echo(line)
