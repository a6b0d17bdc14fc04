"""The app, for the length of a command."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import click


@contextmanager
def in_app(config: dict[str, Any]) -> Iterator[None]:
    """The app's context, with its connections closed at the end.

    What the store refuses is told in one line.
    """
    from ..app import create_app
    from ..store.db import db
    from ..store.problems import Refused

    with create_app(config).app_context():
        try:
            yield
        except Refused as error:
            raise click.ClickException(f"{error.field or ''} {error.message}".strip()) from None
        finally:
            db.session.remove()
            db.engine.dispose()


def bring_up_to_date() -> None:
    """Make the tables, or bring them up to date."""
    from ..store import migrate

    if not migrate.is_current():
        migrate.up()
