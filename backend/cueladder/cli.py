"""The command ``cueladder``."""

from __future__ import annotations

import json
from pathlib import Path

import click

from . import __version__
from .commands.certificate import certificate
from .commands.context import bring_up_to_date, in_app
from .commands.demo import demo
from .commands.keep import backup, close_again, move, restore
from .commands.learn import learn
from .commands.retention import retention
from .commands.serving import listen, run
from .commands.setup import setup

ROLES = ("head", "coach", "observer")


@click.group()
@click.version_option(__version__)
@click.option("--data", type=click.Path(path_type=Path), help="Folder of the database file.")
@click.pass_context
def main(context: click.Context, data: Path | None) -> None:
    """Cue Ladder: a lesson companion for fencing coaches."""
    context.obj = {"DATA": str(data)} if data else {}


@main.command()
@click.option("--host", default="127.0.0.1", show_default=True)
@click.option("--port", default=8080, show_default=True, type=click.IntRange(1, 65535))
@click.option("--threads", default=8, show_default=True, type=click.IntRange(1, 64))
@click.pass_obj
def serve(config: dict[str, str], host: str, port: int, threads: int) -> None:
    """Serve the app. An SQLite database is made or brought up to date first."""
    from .app import create_app
    from .store.access.accounts import is_empty
    from .store.db import migrate
    from .store.db.engine import db
    from .store.whole.upgrade import upgrade

    app = create_app(config)
    with app.app_context():
        if db.engine.dialect.name == "sqlite":
            upgrade()
        elif not migrate.is_current():
            raise click.ClickException(
                "The database is not up to date: run `cueladder db upgrade`."
            )
        empty = is_empty()
        app.extensions["wiper"].wipe()
        db.session.remove()
    server = listen(app, host, port, threads)
    click.echo(f"Cue Ladder is at http://{host}:{port} (stop with Ctrl-C)")
    if empty:
        click.echo("There is no club yet: `cueladder setup` prints the code that makes one.")
    run(server)


@main.group("db")
def database() -> None:
    """Bring the database up or down."""


@database.command()
@click.argument("revision", default="head")
@click.pass_obj
def upgrade(config: dict[str, str], revision: str) -> None:
    """Bring the database up to a revision (default: the newest)."""
    with in_app(config):
        from .store.whole import upgrade as whole

        whole.upgrade(revision)
    click.echo("The database is up to date.")


@database.command()
@click.argument("revision", default="-1")
@click.pass_obj
def downgrade(config: dict[str, str], revision: str) -> None:
    """Take the database down to a revision (default: one back)."""
    with in_app(config):
        from .store.db import migrate

        migrate.down(revision)
    click.echo("Done.")


@main.group()
def coach() -> None:
    """Coaches."""


@coach.command("add")
@click.argument("name")
@click.option("--club", "club_name", help="Name of the club; made if there is none of that name.")
@click.option("--role", type=click.Choice(ROLES), default="coach", show_default=True)
@click.password_option("--passphrase", help="At least 12 characters; asked for if left out.")
@click.pass_obj
def add(
    config: dict[str, str], name: str, club_name: str | None, role: str, passphrase: str
) -> None:
    """Add a coach; a new club gets the starter drills."""
    with in_app(config):
        from .store.access.clubs import add_coach, club_named, only_club
        from .store.drills.library import add_library

        bring_up_to_date()
        club = club_named(club_name) if club_name else only_club()
        if club is None:
            raise click.ClickException("Say which club: --club NAME.")
        add_coach(club.id, name, passphrase, role)
        drills = add_library(club.id)
    click.echo(
        f"{name} can sign in to {club.name} as {role}."
        + (f" {drills} starter drills were added." if drills else "")
    )


@main.command()
@click.option("--rule", "asked", help='A rule as JSON, e.g. \'{"family": "run", "n": 10}\'.')
def odds(asked: str | None) -> None:
    """Print what rules do: chance to climb and expected cues, by how often a fencer is right."""
    from .evidence.odds_table import odds_table
    from .rules import RuleError

    try:
        click.echo(odds_table(json.loads(asked) if asked else None))
    except (RuleError, ValueError) as error:
        raise click.ClickException(f"--rule: {error}") from None


for command in (
    demo, setup, learn, retention, backup, restore, close_again, move, certificate,
):  # fmt: skip
    main.add_command(command)


if __name__ == "__main__":
    main()
