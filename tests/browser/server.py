"""Servers over a folder of their own, which a test can stop and start. Not a test module."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import threading
import time
import urllib.request
from pathlib import Path

import waitress
from playwright.sync_api import Page
from waitress import wasyncore
from waitress.channel import HTTPChannel

from cueladder.app import create_app
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from tests.patience import SECONDS
from tests.ports import free_port
from tests.store.club import CHEAP


class Server:
    """The app behind waitress, as `cueladder serve` runs it, in a thread of this process.

    With `static` it serves that build of the front end in place of the installed one.
    """

    def __init__(self, folder: Path, static: Path | None = None, port: int | None = None) -> None:
        self.folder, self.port = folder, port or free_port()
        self.url = f"http://localhost:{self.port}"
        self._config = {"DATA": folder, **CHEAP, "LEARN_AT_ONCE": False} | (
            {} if static is None else {"STATIC": static}
        )
        self._thread: threading.Thread | None = None

    def start(self) -> None:
        """Start; it listens when this returns."""
        self._app = create_app(self._config)
        with self._app.app_context():
            migrate.up()
        self._server = waitress.create_server(
            self._app, host="127.0.0.1", port=self.port, threads=8, ident=None
        )
        self._thread = threading.Thread(target=self._server.run, daemon=True)
        self._thread.start()

    def start_again(self) -> None:
        """Start it unless it is running."""
        if self._thread is None:
            self.start()

    def stop(self) -> None:
        """Stop it and cut every connection; the database file stays."""
        if self._thread is None:
            return
        self._server.trigger.pull_trigger(self._cut)
        self._thread.join()
        self._server.task_dispatcher.shutdown(timeout=SECONDS)
        with self._app.app_context():
            db.session.remove()
            db.engine.dispose()
        self._thread = None

    def _cut(self) -> None:
        sockets = self._server._map
        for one in list(sockets.values()):
            if isinstance(one, HTTPChannel):
                one.handle_close()  # closes the files it was sending, too
        wasyncore.close_all(sockets, ignore_all=True)


class ServerProcess:
    """`cueladder serve` in a process of its own, where it must not share one with what measures."""

    def __init__(self, folder: Path, static: Path | None = None, port: int | None = None) -> None:
        self.folder, self.static = folder, static
        self.port = port or free_port()
        self.url = f"http://localhost:{self.port}"
        self.process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start and wait until it answers."""
        self.process = subprocess.Popen(
            [sys.executable, "-m", *self._command()],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
        )
        while True:
            if self.process.poll() is not None:
                raise RuntimeError(self.process.stderr.read().decode())
            try:
                with urllib.request.urlopen(f"{self.url}/api/health", timeout=SECONDS):
                    return
            except OSError:
                time.sleep(0.1)

    def _command(self) -> list[str]:
        if self.static is not None:
            return ["tests.browser.serve", str(self.folder), str(self.port), str(self.static)]
        return ["cueladder.cli", "--data", str(self.folder), "serve", "--port", str(self.port)]

    def stop(self) -> None:
        """Stop it; the database file stays."""
        if self.process is None:
            return
        self.process.send_signal(signal.SIGTERM)
        self.process.wait(timeout=SECONDS)
        self.process.stderr.close()
        self.process = None


def cookie_of(page: Page) -> str:
    """The cookie header of whoever is signed in on a page."""
    return "; ".join(f"{one['name']}={one['value']}" for one in page.context.cookies())


def call(server: Server, cookie: str, path: str, body: object | None = None) -> dict:
    """Call the API with a sign-in's cookie; returns the answer."""
    request = urllib.request.Request(
        f"{server.url}{path}",
        data=None if body is None else json.dumps(body).encode(),
        headers={"Cookie": cookie, "X-Cue-Ladder": "1", "Content-Type": "application/json"},
    )
    with urllib.request.urlopen(request, timeout=SECONDS) as answer:
        return json.load(answer)
