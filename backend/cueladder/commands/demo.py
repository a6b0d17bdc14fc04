"""An invented club to try the app with."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

import click

from .serving import listen, run


@click.command()
@click.option("--port", default=8360, show_default=True, type=click.IntRange(1, 65535))
@click.option(
    "--data",
    type=click.Path(path_type=Path),
    help="Folder of the demo's databases, one folder a day.  [default: demo-data]",
)
@click.option("--today", type=click.DateTime(["%Y-%m-%d"]), help="The demo's present day.")
@click.option("--weeks", default=17, show_default=True, type=click.IntRange(1, 60))
@click.option("--no-serve", is_flag=True, help="Make the club only.")
@click.pass_context
def demo(
    context: click.Context,
    port: int,
    data: Path | None,
    today: datetime | None,
    weeks: int,
    no_serve: bool,
) -> None:
    """Make an invented club with a season of lessons, and serve it on localhost."""
    # the one place that knows of the demo, which itself stands on the whole program
    from seed_demo.hosting import is_free, stand_up

    if not no_serve and not is_free(port):
        raise click.ClickException(
            f"Port {port} is taken: stop what uses it, or take another, as in --port 8370 "
            "(make demo PORT=8370)."
        )
    folder = data or Path((context.obj or {}).get("DATA", "demo-data"))
    day = today.date() if today else date.today()  # noqa: DTZ011 - the club's own day
    app, note = stand_up(folder, day, weeks, click.echo)
    # before the address is told, which somebody opens at once
    server = None if no_serve else listen(app, "127.0.0.1", port, threads=8)
    address = f"http://localhost:{port}"
    click.echo(f"\n  Open           {address}\n")
    click.echo(note.format(address=address))
    if server is not None:
        click.echo("Stop with Ctrl-C.")
        run(server)
