"""Settings, from the environment."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path
from typing import Any

from . import jsontext

MEGABYTE = 1024 * 1024


def settings(given: dict[str, Any] | None = None) -> dict[str, Any]:
    """The app's settings: defaults, overridden by the environment, then by the caller.

    Environment: ``DATABASE_URL`` (else an SQLite file), ``CUELADDER_DATA`` (folder of that file,
    default ``./data``), ``CUELADDER_PROXIES`` (number of reverse proxies in front),
    ``CUELADDER_COUNTERS`` (storage of the rate limits, shared by several workers),
    ``CUELADDER_REPLICA`` (a streaming replica that progress pages read from).
    """
    found: dict[str, Any] = {
        "DATA": os.environ.get("CUELADDER_DATA", "data"),
        "DATABASE_URL": os.environ.get("DATABASE_URL"),
        "REPLICA_URL": os.environ.get("CUELADDER_REPLICA"),
        "PROXIES": int(os.environ.get("CUELADDER_PROXIES", "0")),
        "MAX_CONTENT_LENGTH": MEGABYTE,
        "STATIC": Path(__file__).parent / "static",
        "RATELIMIT_STORAGE_URI": os.environ.get("CUELADDER_COUNTERS", "memory://"),
        "RATELIMIT_HEADERS_ENABLED": True,  # Retry-After among them
        "SIGN_IN_LIMITS": "8 per minute;40 per hour",
        # argon2id: passes, memory in KiB, lanes (RFC 9106, second recommended option)
        "ARGON2": (3, 65536, 4),
        # what the lessons teach is found within the request, not beside it: for tests
        "LEARN_AT_ONCE": False,
        "API_TITLE": "Cue Ladder",
        "API_VERSION": "1",
        "OPENAPI_VERSION": "3.1.0",
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
    """The given URL, or an SQLite file in the folder, which is created."""
    if url:
        for scheme in ("postgres://", "postgresql://"):
            if url.startswith(scheme):
                return "postgresql+psycopg://" + url.removeprefix(scheme)
        return url
    path = Path(folder).resolve()
    path.mkdir(mode=0o700, parents=True, exist_ok=True)
    return f"sqlite:///{private_file(path / 'cueladder.sqlite')}"


def private_file(path: Path) -> Path:
    """A file that nobody else on the machine can read, made empty if it is missing."""
    with suppress(OSError):  # another user's, or on a disk that takes no writes: said on use
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, 0o600))
        path.chmod(0o600)
    return path
