"""Firefox by the Marionette it carries: WebDriver commands on a socket. Not a test module."""

from __future__ import annotations

import json
import socket
import subprocess
import time
from pathlib import Path
from typing import Any

from tests.browser.engines.engine import PHONE, TOLD
from tests.browser.engines.webdriver import TIMEOUTS, Driven
from tests.patience import SECONDS
from tests.ports import free_port

# What asks for the network, what restores pages, and what is started in advance.
PREFERENCES = {
    "app.normandy.enabled": False,
    "app.update.disabledForTesting": True,
    "browser.aboutwelcome.enabled": False,
    "browser.dom.window.dump.enabled": True,
    "browser.newtabpage.enabled": False,
    "browser.safebrowsing.malware.enabled": False,
    "browser.safebrowsing.phishing.enabled": False,
    "browser.sessionstore.resume_from_crash": False,
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.homepage_override.mstone": "ignore",
    "browser.startup.page": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "dom.ipc.processPrelaunch.enabled": False,
    "dom.w3c_touch_events.enabled": 1,
    "extensions.getAddons.cache.enabled": False,
    "extensions.systemAddon.update.enabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "services.settings.server": "data:,#no/v1",
    "toolkit.legacyUserProfileCustomizations.stylesheets": True,
    "toolkit.startup.max_resumed_crashes": -1,
    "toolkit.telemetry.enabled": False,
}
# its window would not be as narrow as a phone
NARROW = ":root, body, window { min-width: 0 !important; }\n#navigator-toolbox { display: none; }\n"


class Firefox(Driven):
    """Firefox without a window."""

    name = "Firefox"
    tell = f"((text) => dump(`{TOLD}${{text}}\\n`))"
    needs = ("firefox-esr",)

    def start(self) -> None:
        port = free_port()
        told = {**PREFERENCES, "marionette.port": port}
        lines = [f"user_pref({json.dumps(k)}, {json.dumps(v)});\n" for k, v in told.items()]
        (self.profile / "user.js").write_text("".join(lines))
        (self.profile / "chrome").mkdir(exist_ok=True)
        (self.profile / "chrome" / "userChrome.css").write_text(NARROW)
        with self.told_file.open("ab") as file:
            self.process = subprocess.Popen(
                ["firefox-esr", "--headless", "--marionette", "--no-remote", "--profile",
                 str(self.profile), "--width", str(PHONE[0]), "--height", str(PHONE[1])],
                stdout=file,
                stderr=subprocess.DEVNULL,
                start_new_session=True,
            )  # fmt: skip
        self._socket = _connected(port)
        self._lines = self._socket.makefile("rb")
        self._asked = 0
        self._read()
        wanted = {"alwaysMatch": {"timeouts": TIMEOUTS}}
        self._order("NewSession", {"capabilities": wanted})

    def send(self, command: str, **body: Any) -> Any:
        if command == "ExecuteScript":
            body["sandbox"] = None
        if command == "TakeScreenshot":
            body["full"] = False
        answer = self._order(command, body)
        return answer.get("value") if isinstance(answer, dict) else answer

    def _order(self, command: str, body: dict[str, Any]) -> Any:
        self._asked += 1
        text = json.dumps([0, self._asked, f"WebDriver:{command}", body]).encode()
        self._socket.sendall(b"%d:%s" % (len(text), text))
        _, _, wrong, answer = self._read()
        if wrong is not None:
            raise RuntimeError(f"Firefox: {wrong['error']}: {wrong['message']} ({command})")
        return answer

    def _read(self) -> Any:
        length = b""
        while (one := self._lines.read(1)) != b":":
            if one == b"":
                raise ConnectionError("Firefox is gone")
            length += one
        return json.loads(self._lines.read(int(length)))

    def kill(self) -> None:
        super().kill()
        self._lines.close()
        self._socket.close()
        for name in ("lock", ".parentlock"):
            (self.profile / name).unlink(missing_ok=True)

    def close(self) -> None:
        if self.process is None:
            return
        self.process.terminate()
        self.process.wait(timeout=SECONDS)
        self.kill()

    @property
    def databases(self) -> list[Path]:
        return list((self.profile / "storage" / "default").glob("*/idb"))


def _connected(port: int) -> socket.socket:
    end = time.monotonic() + SECONDS
    while True:
        try:
            made = socket.create_connection(("127.0.0.1", port), timeout=SECONDS)
        except OSError:
            if time.monotonic() > end:
                raise
            time.sleep(0.02)
        else:
            return made
