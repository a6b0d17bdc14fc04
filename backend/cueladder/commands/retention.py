"""Apply the clubs' retention settings."""

from __future__ import annotations

import click

from .context import in_app


@click.command()
@click.option("--apply", "really", is_flag=True, help="Erase them. There is no way back.")
@click.pass_obj
def retention(config: dict[str, str], really: bool) -> None:
    """List the records that are due to be erased by each club's own setting; erase with --apply.

    Run it every night, e.g. by a timer.
    """
    with in_app(config):
        from ..store.db.engine import now
        from ..store.fencers.remnants import wipe_remnants
        from ..store.records.retention import apply_retention, due

        today = now().astimezone().date()
        found = apply_retention(today) if really else due(today)
        wiped = wipe_remnants(by_day=False) if really else True
    for each in found:
        what = f"last lesson {each.last}, {each.events} events"
        click.echo(f"{each.club}: {each.nickname} ({what})")
    if not found:
        click.echo("Nothing is due.")
    elif really:
        click.echo(f"{len(found)} erased.")
    else:
        click.echo(f"{len(found)} due. Erase with --apply; there is no way back.")
    if not wiped:
        click.echo(
            "The database was busy: run `cueladder retention --apply` again later to wipe the rest."
        )
