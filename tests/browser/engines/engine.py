"""A browser as the engine stories see it: one interface, whatever drives it. Not a test module."""

from __future__ import annotations

import os
import shutil
import signal
import time
from abc import ABC, abstractmethod
from pathlib import Path
from typing import Any

from tests.patience import until

PHONE = (360, 740)
TOLD = "told "


class Engine(ABC):
    """A browser with a profile of its own; it can be killed and started again.

    Attributes:
        profile: the folder in which it keeps everything.
        tell: a JavaScript function, as an expression; what a page gives to it is in `told` from
            that moment on, a hard kill notwithstanding.
    """

    name: str
    tell: str
    needs: tuple[str, ...] = ()

    def __init__(self, profile: Path) -> None:
        self.profile = profile
        profile.mkdir(parents=True, exist_ok=True)

    @classmethod
    def missing(cls) -> str | None:
        """What this machine lacks for it, as a sentence; None where nothing does."""
        gone = [one for one in cls.needs if shutil.which(one) is None]
        if not gone:
            return None
        return f"{cls.name} is not tried: there is no {' and no '.join(gone)} on this machine"

    @abstractmethod
    def start(self) -> None:
        """Start it, with nothing open yet."""

    @abstractmethod
    def go(self, address: str) -> None:
        """Open an address; returns once it is loaded."""

    @abstractmethod
    def ask(self, script: str, *given: Any) -> Any:
        """What a JavaScript function returns, a promise's value if it is one.

        Args:
            script: the function, as an expression.
            given: its arguments, plain JSON.
        """

    @abstractmethod
    def press(self, css: str) -> None:
        """A pointer down on an element and up again, with all that this engine makes of it."""

    @abstractmethod
    def touch(self, css: str) -> None:
        """The same by a finger, where the engine can be given one."""

    @abstractmethod
    def write(self, css: str, text: str) -> None:
        """Type into a field."""

    @abstractmethod
    def picture(self) -> bytes:
        """What is on its screen, as PNG."""

    @abstractmethod
    def told(self) -> list[str]:
        """What pages gave to `tell` so far."""

    @abstractmethod
    def kill(self) -> None:
        """End every process of it at once, as a flat battery would."""

    @abstractmethod
    def close(self) -> None:
        """End it in good order."""

    @property
    @abstractmethod
    def databases(self) -> list[Path]:
        """The folders of the profile that hold IndexedDB."""

    def empty_database(self) -> None:
        """Take IndexedDB out of the profile of a browser that is not running."""
        held = self.databases
        assert held, f"{self.name} keeps no IndexedDB where it was looked for"
        for folder in held:
            shutil.rmtree(folder)

    def pause(self, seconds: float) -> None:
        """Let so much time pass, the browser going on meanwhile."""
        time.sleep(seconds)

    # what a coach sees and does, the same in all

    def shows(self, css: str, text: str = "") -> None:
        """Wait until an element is there, drawn, with this text in it."""
        try:
            until(lambda: self.ask(SHOWS, css, text), f"{css!r} with {text!r} in {self.name}")
        except TimeoutError as error:
            raise TimeoutError(f"{error}; there was: {self.ask(PAGE)}") from None

    def gone(self, css: str) -> None:
        """Wait until there is no such element."""
        until(lambda: not self.has(css), f"the end of {css!r} in {self.name}")

    def has(self, css: str) -> bool:
        """Whether there is such an element now."""
        return bool(self.ask("(css) => document.querySelector(css) !== null", css))

    def text(self, css: str) -> str:
        """An element's text as drawn."""
        return str(self.ask("(css) => document.querySelector(css).innerText", css))

    def value(self, css: str, name: str) -> str | None:
        """An element's attribute; None without the one or the other."""
        script = "(css, name) => document.querySelector(css)?.getAttribute(name) ?? null"
        return self.ask(script, css, name)

    def tap(self, css: str) -> None:
        """Press an element once it can be pressed."""
        until(lambda: self.ask(PRESSABLE, css), f"{css!r} to press in {self.name}")
        self.press(css)


PAGE = "() => `${location.href}: ${document.body.innerText.slice(0, 1500)}`"

SHOWS = """(css, text) => [...document.querySelectorAll(css)].some((one) =>
  one.getClientRects().length > 0 && one.textContent.includes(text))"""

# nothing over its middle, and not moving: what is drawn again meanwhile would be missed
PRESSABLE = """async (css) => {
  const at = () => {
    const one = document.querySelector(css);
    if (one === null || one.disabled || !one.isConnected) return "";
    one.scrollIntoView({ block: "nearest" });
    const box = one.getBoundingClientRect();
    if (box.width === 0) return "";
    const over = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
    return over !== null && (one.contains(over) || over.contains(one)) ? `${box.x} ${box.y}` : "";
  };
  const first = at();
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  return first !== "" && first === at();
}"""


def kill_session(leader: int) -> None:
    """Kill every process of the session that one process leads, and wait for their end."""
    for pid in _of_session(leader):
        os.kill(pid, signal.SIGKILL)
    until(lambda: not _of_session(leader), "the end of the browser")


def _of_session(leader: int) -> list[int]:
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                state, *_, session = (entry / "stat").read_text().rsplit(") ", 1)[1].split()[:4]
            except OSError:
                continue
            if int(session) == leader and state != "Z":
                found.append(int(entry.name))
    return found
