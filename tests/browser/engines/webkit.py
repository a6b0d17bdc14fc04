"""WebKit: its own driver, leading the small host that keeps its profile. Not a test module."""

from __future__ import annotations

import http.client
import json
import os
import socket
import subprocess
import time
from pathlib import Path
from typing import Any

from tests.browser.engines.webdriver import TIMEOUTS, Driven
from tests.patience import SECONDS, until
from tests.ports import free_port

HOST = Path(__file__).parent / "webkit_host.py"
# the system's own: its bindings of WebKit are not those of an environment's Python
PYTHON = "/usr/bin/python3"
HAS_BINDINGS = "import gi; gi.require_version('WebKit2', '4.1')"
ROUTES = {
    "Navigate": ("POST", "/url"),
    "ExecuteScript": ("POST", "/execute/sync"),
    "FindElement": ("POST", "/element"),
    "ElementClick": ("POST", "/element/{id}/click"),
    "ElementSendKeys": ("POST", "/element/{id}/value"),
    "PerformActions": ("POST", "/actions"),
    "TakeScreenshot": ("GET", "/screenshot"),
}


class Webkit(Driven):
    """WebKitGTK under Xvfb."""

    name = "WebKit"
    tell = "((text) => webkit.messageHandlers.told.postMessage(text))"
    needs = ("WebKitWebDriver", "Xvfb", PYTHON)
    screen: str | None = None

    @classmethod
    def missing(cls) -> str | None:
        lacks = super().missing()
        if lacks is None and subprocess.run([PYTHON, "-c", HAS_BINDINGS], capture_output=True,
                                            check=False).returncode:  # fmt: skip
            lacks = f"WebKit is not tried: {PYTHON} lacks python3-gi or gir1.2-webkit2-4.1"
        return lacks

    def start(self) -> None:
        port = free_port()
        self.process = subprocess.Popen(
            ["WebKitWebDriver", f"--port={port}"],
            env=os.environ | {"DISPLAY": _screen(), "GDK_BACKEND": "x11", "NO_AT_BRIDGE": "1"},
            start_new_session=True,
            stderr=subprocess.DEVNULL,
        )
        self._driver = http.client.HTTPConnection("127.0.0.1", port, timeout=SECONDS)
        options = {"binary": PYTHON, "args": [str(HOST), str(self.profile), str(self.told_file)]}
        wanted = {"webkitgtk:browserOptions": options, "timeouts": TIMEOUTS}
        _listening(port)
        made = self._call("POST", "/session", {"capabilities": {"alwaysMatch": wanted}})
        self._session = f"/session/{made['sessionId']}"

    def go(self, address: str) -> None:
        # its driver may take the end of an earlier load for that of this one, and give this one up
        until(lambda: self._went(address), f"{address} in WebKit")

    def _went(self, address: str) -> bool:
        super().go(address)
        return bool(self.ask("(address) => location.href === new URL(address).href", address))

    def send(self, command: str, **body: Any) -> Any:
        method, path = ROUTES[command]
        path = self._session + path.format(id=body.pop("id", ""))
        return self._call(method, path, body if method == "POST" else None)

    def _call(self, method: str, path: str, body: object) -> Any:
        text = None if body is None else json.dumps(body)
        self._driver.request(method, path, text)
        answer = self._driver.getresponse()
        value = json.loads(answer.read())["value"]
        if answer.status != 200:
            raise RuntimeError(f"WebKit: {value.get('error')}: {value.get('message')} ({path})")
        return value

    def kill(self) -> None:
        super().kill()
        self._driver.close()

    def close(self) -> None:
        # the driver only cuts its browser off; what was answered as written outlives that
        self.kill()

    @property
    def databases(self) -> list[Path]:
        return list((self.profile / "data").glob("databases/indexeddb"))


_xvfb: subprocess.Popen[bytes] | None = None


def _screen() -> str:
    """A screen of this test process, begun at the first call and ended with the process."""
    global _xvfb
    if _xvfb is None or _xvfb.poll() is not None:
        read, write = os.pipe()
        _xvfb = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", "1400x1000x24", "-nolisten", "tcp"],
            pass_fds=[write],
            stderr=subprocess.DEVNULL,
        )
        os.close(write)
        with os.fdopen(read) as told:
            Webkit.screen = f":{told.readline().strip()}"
    assert Webkit.screen is not None
    return Webkit.screen


def end_screen() -> None:
    """End the screen, if there is one."""
    global _xvfb
    if _xvfb is not None:
        _xvfb.terminate()
        _xvfb.wait()
        _xvfb = None


def _listening(port: int) -> None:
    end = time.monotonic() + SECONDS
    while True:
        try:
            socket.create_connection(("127.0.0.1", port), timeout=SECONDS).close()
            return
        except OSError:
            if time.monotonic() > end:
                raise
            time.sleep(0.02)
