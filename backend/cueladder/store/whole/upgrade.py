"""Bring a database up to this program: its tables first, then its drills' charts."""

from __future__ import annotations

from ..db import migrate
from ..drills.versions import renew_charts


def upgrade(revision: str = "head") -> None:
    """Upgrade the current app's database, and at the newest revision its drills' charts."""
    migrate.up(revision)
    if revision == "head":
        renew_charts()
