"""Backup, restore, and transfer to another database."""

from __future__ import annotations

from pathlib import Path

import click

from .context import bring_up_to_date, in_app

FILE = click.Path(dir_okay=False, path_type=Path)


@click.command()
@click.argument("file", type=FILE)
@click.pass_obj
def backup(config: dict[str, str], file: Path) -> None:
    """Copy the SQLite database to FILE, checked; the server may go on running.

    The copy holds everything, names too: keep it in a safe place and not for ever.
    """
    with in_app(config):
        from ..store.whole.backup import backup as take

        counts = take(file)
    click.echo(f"{file}: sound, with {_told(counts)}.")


@click.command()
@click.argument("file", type=FILE)
@click.option("--replace", is_flag=True, help="Replace what is here. There is no way back.")
@click.pass_obj
def restore(config: dict[str, str], file: Path, replace: bool) -> None:
    """Put the backup FILE in the place of the SQLite database. Stop the server first.

    Who was erased and what was closed since the backup stays so; everyone signs in anew.
    """
    with in_app(config):
        from ..store.whole.backup import restore as put_back

        done = put_back(file, replace)
    click.echo(f"Restored: {_told(done.counts)}.")
    _tell_closed(done.closed, done.known)


@click.command("close-again")
@click.option("--from", "url", help="The database that was in use before the restore.")
@click.pass_obj
def close_again(config: dict[str, str], url: str | None) -> None:
    """After pg_restore: close what had been closed since the backup. Everyone signs in anew.

    Without --from, for a database that is lost, every progress link is closed.
    """
    with in_app(config):
        from sqlalchemy import create_engine

        from ..config import database_url
        from ..store.problems import Refused
        from ..store.whole.closed import close_again as close
        from ..store.whole.closed import read_closed

        bring_up_to_date()
        before = None
        if url:
            with create_engine(database_url(url, ".")).connect() as connection:
                before = read_closed(connection)
            if before is None:
                raise Refused("--from holds no club that can be read. Leave it out if it is lost.")
        done = close(before)
    _tell_closed(done, before is not None)


def _tell_closed(closed: dict[str, int], known: bool) -> None:
    if known:
        click.echo(
            f"As before the restore: {closed['fencers']} fencers and {closed['lessons']} lessons "
            f"erased again, {closed['links']} links closed again."
        )
    else:
        click.echo(
            f"The database from before could not be read: {closed['links']} links were closed. "
            "Erase again who was erased since the backup was made."
        )
    click.echo("Everyone signs in anew; what phones have not sent stays on them until then.")


@click.command()
@click.option("--to", "url", required=True, help="An empty database, e.g. postgresql://…/club.")
@click.pass_obj
def move(config: dict[str, str], url: str) -> None:
    """Copy everything to another database and check it there. Stop the server first.

    Works from SQLite to PostgreSQL and back. What is here stays as it is.
    """
    with in_app(config):
        from ..store.db.engine import db
        from ..store.whole.transfer import copy_all, disagreements

        bring_up_to_date()
        db.session.remove()
        source, address = db.engine, db.engine.url
        with in_app({**config, "DATABASE_URL": url}):
            if db.engine.url == address:
                raise click.ClickException("--to is the database that is in use here already.")
            bring_up_to_date()
            db.session.remove()
            counts = copy_all(source, db.engine)
            wrong = disagreements()
    if wrong:
        raise click.ClickException(
            f"Everything was copied, but {len(wrong)} standings fold otherwise. "
            "Keep using the old database and report this."
        )
    click.echo(f"Copied and checked by folding again: {_told(counts)}.")
    click.echo("Set DATABASE_URL to the new address, then start the server.")


def _told(counts: dict[str, int]) -> str:
    named = {"club": "clubs", "fencer": "fencers", "lesson": "lessons", "event": "events"}
    return ", ".join(f"{counts[table]} {noun}" for table, noun in named.items())
