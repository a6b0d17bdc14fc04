"""What a database's own files hold, byte by byte. Not a test module."""

from __future__ import annotations

from pathlib import Path

import psycopg
import pytest

from cueladder.store.db.engine import db
from tests.conftest import POSTGRES


def file_bytes() -> bytes:
    """All files of the current app's database: on PostgreSQL those of its tables, not its log."""
    url = db.engine.url
    if db.engine.dialect.name == "sqlite":
        path = Path(url.database or "")
        return b"".join(part.read_bytes() for part in path.parent.glob(path.name + "*"))
    with psycopg.connect(POSTGRES, autocommit=True) as server:
        server.execute("CHECKPOINT")  # what is in memory goes to the files, dropped files go
        (folder,) = server.execute("SHOW data_directory").fetchone()
        (number,) = server.execute(
            "SELECT oid FROM pg_database WHERE datname = %s", [url.database]
        ).fetchone()
    try:
        return b"".join(
            path.read_bytes() for path in (Path(folder) / "base" / str(number)).iterdir()
        )
    except PermissionError:
        pytest.skip(f"the files of PostgreSQL in {folder} cannot be read by this user")
