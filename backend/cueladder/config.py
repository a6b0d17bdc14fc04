"""Settings, from the environment."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from . import jsontext

MEGABYTE = 1024 * 1024


def settings(given: dict[str, Any] | None = None) -> dict[str, Any]:
    """The app's settings: defaults, then the environment, then what the caller gives.

    Environment: ``DATABASE_URL`` (else an SQLite file), ``CUELADDER_DATA`` (folder of that file,
    default ``./data``), ``CUELADDER_PROXIES`` (how many reverse proxies stand in front),
    ``CUELADDER_COUNTERS`` (where rate limits are counted; shared by several workers),
    ``CUELADDER_REPLICA`` (a streaming replica of the database that progress pages are read from).
    """
    found: dict[str, Any] = {
        "DATA": os.environ.get("CUELADDER_DATA", "data"),
        "DATABASE_URL": os.environ.get("DATABASE_URL"),
        "REPLICA_URL": os.environ.get("CUELADDER_REPLICA"),
        "PROXIES": int(os.environ.get("CUELADDER_PROXIES", "0")),
        "MAX_CONTENT_LENGTH": MEGABYTE,
        "STATIC": Path(__file__).parent / "static",
        "RATELIMIT_STORAGE_URI": os.environ.get("CUELADDER_COUNTERS", "memory://"),
        "SIGN_IN_LIMITS": "8 per minute;40 per hour",
        # argon2id: passes, memory in KiB, lanes (RFC 9106, second recommended option)
        "ARGON2": (3, 65536, 4),
        "API_TITLE": "Cue Ladder",
        "API_VERSION": "1",
        "OPENAPI_VERSION": "3.0.3",
        "OPENAPI_URL_PREFIX": "/api",
        "SQLALCHEMY_ENGINE_OPTIONS": {
            "json_serializer": jsontext.write,
            "json_deserializer": jsontext.read,
        },
    }
    found.update(given or {})
    found["SQLALCHEMY_DATABASE_URI"] = database_url(found["DATABASE_URL"], found["DATA"])
    if found["SQLALCHEMY_DATABASE_URI"].startswith("postgresql"):
        found["SQLALCHEMY_ENGINE_OPTIONS"] = {"pool_pre_ping": True} | found[
            "SQLALCHEMY_ENGINE_OPTIONS"
        ]
    if found["REPLICA_URL"]:
        replica = database_url(found["REPLICA_URL"], found["DATA"])
        options = found["SQLALCHEMY_ENGINE_OPTIONS"] | {"connect_args": {"connect_timeout": 3}}
        found["SQLALCHEMY_BINDS"] = {"replica": {"url": replica, **options}}
    return found


def database_url(url: str | None, folder: str | Path) -> str:
    """The given address, or an SQLite file in the folder (made if it is missing)."""
    if url:
        for scheme in ("postgres://", "postgresql://"):
            if url.startswith(scheme):
                return "postgresql+psycopg://" + url.removeprefix(scheme)
        return url
    path = Path(folder).resolve()
    path.mkdir(parents=True, exist_ok=True)
    return f"sqlite:///{path / 'cueladder.sqlite'}"
