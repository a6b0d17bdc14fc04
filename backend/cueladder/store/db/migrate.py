"""Run migrations from inside the installed package."""

from __future__ import annotations

from pathlib import Path

from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from flask_migrate import Migrate, downgrade, upgrade

from . import models  # noqa: F401  the metadata must know every table
from .engine import db

FOLDER = str(Path(__file__).parent / "migrations")

migrate = Migrate(directory=FOLDER)


def up(revision: str = "head") -> None:
    """Upgrade the tables of the current app's database."""
    upgrade(FOLDER, revision)


def down(revision: str = "-1") -> None:
    """Downgrade the current app's database."""
    downgrade(FOLDER, revision)


def is_current() -> bool:
    """Whether the current app's database is at the newest revision."""
    with db.engine.connect() as connection:
        here = MigrationContext.configure(connection).get_current_heads()
    return set(here) == set(ScriptDirectory(FOLDER).get_heads())
