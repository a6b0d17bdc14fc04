"""A phone: real Chromium with a profile that outlives its process. Not a test module."""

from __future__ import annotations

import os
import shutil
import signal
import time
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, Playwright

PHONE = {"width": 360, "height": 740}
DESK = {"width": 1280, "height": 800}
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]


class Phone:
    """A browser with a profile of its own; it can be killed and started again."""

    def __init__(
        self,
        playwright: Playwright,
        profile: Path,
        url: str,
        arguments: tuple[str, ...] = (),
        **options: object,
    ) -> None:
        self.playwright, self.profile, self.url = playwright, profile, url
        self.arguments = [*ARGUMENTS, *arguments]
        self.options = {"viewport": PHONE, "has_touch": True, **options}
        self.context: BrowserContext | None = None

    def start(self, path: str = "/") -> Page:
        """Open the app."""
        page = self.start_blank()
        page.goto(self.url + path)
        return page

    def start_blank(self) -> Page:
        """Start the browser, with nothing in it yet."""
        self.context = self.playwright.chromium.launch_persistent_context(
            str(self.profile),
            executable_path=shutil.which("chromium"),
            args=self.arguments,
            **self.options,
        )
        return self.context.pages[0]

    @property
    def page(self) -> Page:
        """The open page."""
        assert self.context is not None
        return self.context.pages[0]

    def kill(self) -> None:
        """End every process of the browser at once, as a flat battery would."""
        for pid in _processes(str(self.profile)):
            os.kill(pid, signal.SIGKILL)
        while _processes(str(self.profile)):
            time.sleep(0.02)
        for lock in self.profile.glob("Singleton*"):
            lock.unlink()
        self.context = None

    def close(self) -> None:
        """Close the browser in good order."""
        if self.context is not None:
            self.context.close()
            self.context = None


def _processes(profile: str) -> list[int]:
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                line = (entry / "cmdline").read_bytes()
                stat = (entry / "stat").read_text()
            except OSError:
                continue
            if profile.encode() in line and b"chromium" in line and ") Z " not in stat:
                found.append(int(entry.name))
    return found
