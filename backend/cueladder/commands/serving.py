"""How the built-in server is set, so that no visitor can hold it up."""

from __future__ import annotations

import gc
import importlib
import socket
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from flask import Flask

MEGABYTE = 1024 * 1024
# What pages ask for first takes so long to load that the first page would be held up by it.
LATE = (
    "scipy.optimize",
    "scipy.stats",
    "matplotlib.figure",
    "matplotlib.backends.backend_svg",
)


def limits(app: Flask) -> dict[str, Any]:
    """Settings of waitress for the app.

    A body over 1 MB is refused by the app; over 2 MB it is not even read. Who has opened a
    connection and says nothing for a while is shown out, and there is room for many such.
    """
    return {
        "ident": None,
        # what a proxy in front says is weighed by the app, which knows how many there are
        "clear_untrusted_proxy_headers": not app.config["PROXIES"],
        "max_request_body_size": 2 * MEGABYTE,
        "max_request_header_size": 32 * 1024,
        "connection_limit": 1000,
        "channel_timeout": 20,
        "cleanup_interval": 5,
        "asyncore_use_poll": True,
    }


def run(server: Any) -> None:
    """Serve, once the parts of scipy and matplotlib that take a second are loaded.

    Whoever asks meanwhile waits for that; loaded beside the first pages they took longer, and held
    up every one of them.
    """
    for each in LATE:
        importlib.import_module(each)
    freeze_loaded()
    server.run()


def freeze_loaded() -> None:
    """Exempt what is loaded from garbage collection, which would walk it while pages wait."""
    gc.collect()
    gc.freeze()


def listen(app: Flask, host: str, port: int, threads: int) -> Any:
    """A server that listens; raises ClickException where it cannot."""
    import waitress

    try:
        return waitress.create_server(app, host=host, port=port, threads=threads, **limits(app))
    except (OSError, socket.gaierror) as error:
        raise click.ClickException(
            f"Cannot listen on {host}:{port} ({error.strerror}). Is it in use? Try --port."
        ) from None
