"""A real server in its own process, which a test can stop and start. Not a test module."""

from __future__ import annotations

import json
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path


class Server:
    """`cueladder serve` on a free port over a folder of its own.

    With `static` it serves that build of the front end in place of the installed one.
    """

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
        for _ in range(300):
            if self.process.poll() is not None:
                raise RuntimeError(self.process.stderr.read().decode())
            try:
                with urllib.request.urlopen(f"{self.url}/api/health", timeout=5):
                    return
            except OSError:
                time.sleep(0.1)
        raise RuntimeError("the server did not answer")

    def _command(self) -> list[str]:
        if self.static is not None:
            return ["tests.browser.serve", str(self.folder), str(self.port), str(self.static)]
        return ["cueladder.cli", "--data", str(self.folder), "serve", "--port", str(self.port)]

    def stop(self, how: int = signal.SIGTERM) -> None:
        """Stop it; the database file stays."""
        if self.process is None:
            return
        self.process.send_signal(how)
        self.process.wait(timeout=20)
        self.process.stderr.close()
        self.process = None


def free_port() -> int:
    """A port nobody listens on just now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def call(server: Server, cookie: str, path: str, body: object | None = None) -> dict:
    """Call the API with a sign-in's cookie; returns the answer."""
    request = urllib.request.Request(
        f"{server.url}{path}",
        data=None if body is None else json.dumps(body).encode(),
        headers={"Cookie": cookie, "X-Cue-Ladder": "1", "Content-Type": "application/json"},
    )
    with urllib.request.urlopen(request, timeout=20) as answer:
        return json.load(answer)
