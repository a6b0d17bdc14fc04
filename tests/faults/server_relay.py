"""A relay in front of a database, which can be cut and mended. Not a test module."""

from __future__ import annotations

import contextlib
import socket
import threading
from urllib.parse import urlsplit


class Relay:
    """Passes bytes on between a port of loopback and the database."""

    def __init__(self, url: str) -> None:
        parts = urlsplit(url)
        self._there = (parts.hostname or "127.0.0.1", parts.port or 5432)
        self._open = True
        self._pairs: list[socket.socket] = []
        self._listener = socket.create_server(("127.0.0.1", 0))
        user = f"{parts.username}@" if parts.username else ""
        self.url = parts._replace(
            netloc=f"{user}127.0.0.1:{self._listener.getsockname()[1]}"
        ).geturl()

    def __enter__(self) -> Relay:
        threading.Thread(target=self._accept, daemon=True).start()
        return self

    def __exit__(self, *_: object) -> None:
        self.cut()
        self._listener.close()

    def cut(self) -> None:
        """Close every connection and let no new one through."""
        self._open = False
        while self._pairs:
            end = self._pairs.pop()
            with contextlib.suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)

    def mend(self) -> None:
        """Let new connections through again."""
        self._open = True

    def _accept(self) -> None:
        while True:
            try:
                near, _ = self._listener.accept()
            except OSError:
                return
            if not self._open:
                near.close()
                continue
            far = socket.create_connection(self._there)
            self._pairs += [near, far]
            for one, other in ((near, far), (far, near)):
                threading.Thread(target=_copy, args=(one, other), daemon=True).start()


def _copy(source: socket.socket, target: socket.socket) -> None:
    with contextlib.suppress(OSError):
        while data := source.recv(65536):
            target.sendall(data)
    for end in (source, target):
        with contextlib.suppress(OSError):
            end.shutdown(socket.SHUT_RDWR)
        end.close()
