"""The demo club on localhost: made once a day, then served."""

from __future__ import annotations

import shutil
import socket
from collections.abc import Callable
from datetime import date
from pathlib import Path

from flask import Flask

from cueladder.app import create_app
from cueladder.store.db.engine import db

from .club import CLUB, PASSPHRASE
from .make import make


def stand_up(
    folder: Path, today: date, weeks: int, tell: Callable[[str], object]
) -> tuple[Flask, str]:
    """The app over a day's demo club, made unless it is there, and how to sign in.

    Args:
        folder: of the demo's databases, one folder a day.
        today: the demo's present day.
        weeks: length of the season so far.
        tell: is told when something takes long.

    Returns:
        The app, and a text with ``{address}`` where the site's address belongs.
    """
    here = folder / today.isoformat()
    note = here / "sign-in.txt"
    # whatever database the environment names is no place for an invented club
    config = {"DATA": str(here), "DATABASE_URL": None, "REPLICA_URL": None}
    if not note.exists():
        tell("Making the demo club and its season (about ten seconds) …")
        shutil.rmtree(here, ignore_errors=True)
    app = create_app(config)
    if not note.exists():
        with app.app_context():
            made = make(today, weeks)
            db.session.remove()
        note.write_text(
            f"{CLUB}: {made.events} events on {made.started} drills\n\n"
            f"  Sign in as     {made.coach}\n"
            f"  Passphrase     {PASSPHRASE}\n"
            f"  Progress page  {{address}}/p/{made.token}\n",
            encoding="utf-8",
        )
    return app, note.read_text(encoding="utf-8")


def is_free(port: int) -> bool:
    """Whether a server can listen on a port of localhost."""
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", port))
        except OSError:
            return False
    return True
