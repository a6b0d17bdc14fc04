"""An application context for commands."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import click


@contextmanager
def in_app(config: dict[str, Any]) -> Iterator[None]:
    """An application context whose connections are closed at the end.

    A `Refused` becomes a one-line error.
    """
    from sqlalchemy.exc import OperationalError

    from ..app import create_app
    from ..store.db.engine import db
    from ..store.problems import Refused

    with create_app(config).app_context():
        try:
            yield
        except Refused as error:
            raise click.ClickException(f"{error.field or ''} {error.message}".strip()) from None
        except OperationalError as error:
            raise click.ClickException(
                f"The database cannot be used: {str(error.orig).strip()}. "
                "Is the disk full or read-only, or the database stopped? Nothing was changed."
            ) from None
        finally:
            db.session.remove()
            db.engine.dispose()


def bring_up_to_date() -> None:
    """Run the migrations that are missing."""
    from ..store.db import migrate
    from ..store.whole.upgrade import upgrade

    if not migrate.is_current():
        upgrade()
