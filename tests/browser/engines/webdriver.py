"""What WebKit and Firefox have in common: the commands of W3C WebDriver. Not a test module."""

from __future__ import annotations

import base64
import subprocess
from abc import abstractmethod
from pathlib import Path
from typing import Any

from tests.browser.engines.engine import TOLD, Engine, kill_session
from tests.patience import SECONDS

TIMEOUTS = {"script": int(SECONDS * 1000), "pageLoad": int(SECONDS * 1000), "implicit": 0}


class Driven(Engine):
    """A browser led by WebDriver commands; how they travel, its kinds say (`send`)."""

    process: subprocess.Popen[bytes] | None = None

    @property
    def told_file(self) -> Path:
        """Where `tell` writes."""
        return self.profile / "told"

    @abstractmethod
    def send(self, command: str, **body: Any) -> Any:
        """Give a command, named as in WebDriver; its value."""

    def go(self, address: str) -> None:
        self.send("Navigate", url=address)

    def ask(self, script: str, *given: Any) -> Any:
        call = f"return ({script})(...arguments)"
        return self.send("ExecuteScript", script=call, args=list(given))

    def press(self, css: str) -> None:
        self.send("ElementClick", id=self._element(css))

    def touch(self, css: str) -> None:
        element = self.send("FindElement", using="css selector", value=css)
        finger = [
            {"type": "pointerMove", "origin": element, "x": 0, "y": 0, "duration": 0},
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        ]
        kind = {"pointerType": "touch"}
        source = {"type": "pointer", "id": "finger", "parameters": kind, "actions": finger}
        self.send("PerformActions", actions=[source])

    def write(self, css: str, text: str) -> None:
        self.send("ElementSendKeys", id=self._element(css), text=text)

    def picture(self) -> bytes:
        return base64.b64decode(self.send("TakeScreenshot"))

    def told(self) -> list[str]:
        if not self.told_file.exists():
            return []
        lines = self.told_file.read_text(errors="replace").splitlines()
        return [line.removeprefix(TOLD) for line in lines if line.startswith(TOLD)]

    def kill(self) -> None:
        if self.process is not None:
            kill_session(self.process.pid)
            self.process.wait()
            self.process = None

    def _element(self, css: str) -> str:
        found = self.send("FindElement", using="css selector", value=css)
        return str(next(iter(found.values())))
