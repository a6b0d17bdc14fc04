"""A phone: real Chromium with a profile that outlives its process. Not a test module."""

from __future__ import annotations

import os
import shutil
import signal
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect

from tests.patience import SECONDS, Found, until

PHONE = {"width": 360, "height": 740}
DESK = {"width": 1280, "height": 800}
# The pages that Chromium 156 keeps ready under its address bar cost more than a short test. The
# last list of features wins over Playwright's own, so what matters of that is repeated.
UNWANTED = [
    "WebUIOmniboxPopup",
    "WebUIOmniboxAimPopup",
    "HttpsUpgrades",
    "LensOverlay",
    "MediaRouter",
    "NetworkTimeServiceQuerying",
    "OptimizationHints",
    "PaintHolding",
    "PreconnectToSearch",
    "ThirdPartyStoragePartitioning",
    "Translate",
]
ARGUMENTS = [
    f"--disable-features={','.join(UNWANTED)}",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]


CHROMIUM = shutil.which("chromium")
# The same engine and storage without windows to draw: a third less work to start and to drive.
SHELL = shutil.which("chromium-headless-shell") or CHROMIUM


# A test taps faster than a hand: what counts as a bounce is tried in `test_touch.py`.
QUICK_HAND = """
  if (localStorage.getItem("cue-ladder-settings") === null)
    localStorage.setItem("cue-ladder-settings", JSON.stringify({ apart: 0 }));
"""


# A busy machine must not fail a test: what should come is waited for, however slow it is.
expect.set_options(timeout=SECONDS * 1000)
# Delays every answer a page waits for, from its own stores or from the server, by so many
# milliseconds (`make late`). A test that looks too soon then fails each time, not once in a hundred
# runs on a busy machine.
LATE_MS = int(os.environ.get("CUELADDER_LATE", "0"))
LATE = """(late) => {
  const { fetch: quick, Worker, IDBTransaction } = globalThis;
  globalThis.fetch = async (...words) => {
    const reply = await quick(...words);
    await new Promise((done) => setTimeout(done, late));
    return reply;
  };
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (...words) {
    setTimeout(() => post.apply(this, words), late);
  };
  const later = (heard) => function (event) { setTimeout(() => heard.call(this, event), late); };
  const completed = Object.getOwnPropertyDescriptor(IDBTransaction.prototype, "oncomplete");
  Object.defineProperty(IDBTransaction.prototype, "oncomplete", {
    ...completed,
    set(heard) { completed.set.call(this, heard && later(heard)); },
  });
  const listen = IDBTransaction.prototype.addEventListener;
  IDBTransaction.prototype.addEventListener = function (type, heard, ...rest) {
    listen.call(this, type, type === "complete" ? later(heard) : heard, ...rest);
  };
}"""


def prepare(context: BrowserContext) -> None:
    """Set a context's time limit and tapping speed, and delay its answers if asked to."""
    context.set_default_timeout(SECONDS * 1000)
    context.add_init_script(QUICK_HAND)
    if LATE_MS:
        context.add_init_script(f"({LATE})({LATE_MS})")


class Phone:
    """A browser with a profile of its own; it can be killed and started again."""

    def __init__(
        self,
        playwright: Playwright,
        profile: Path,
        url: str,
        arguments: tuple[str, ...] = (),
        program: str | None = CHROMIUM,
        **options: object,
    ) -> None:
        self.playwright, self.profile, self.url, self.program = playwright, profile, url, program
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
            executable_path=self.program,
            args=self.arguments,
            timeout=SECONDS * 1000,
            **self.options,
        )
        prepare(self.context)
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
        until(lambda: not _processes(str(self.profile)), "the end of the browser")
        for lock in self.profile.glob("Singleton*"):
            lock.unlink()
        self.context = None

    def close(self) -> None:
        """Close the browser in good order."""
        if self.context is not None:
            self.context.close()
            self.context = None


class Guest(Phone):
    """A phone whose storage ends with it: a context of its own in a browser that is shared."""

    def __init__(self, browser: Browser, url: str, **options: object) -> None:
        self.browser, self.url = browser, url
        self.options = {"viewport": PHONE, "has_touch": True, **options}
        self.context: BrowserContext | None = None

    def start_blank(self) -> Page:
        """Open a page, with nothing in it yet."""
        self.context = self.browser.new_context(**self.options)
        prepare(self.context)
        return self.context.new_page()

    def kill(self) -> None:
        """Not this one: others are in the same browser."""
        raise NotImplementedError


# so many times drawn: what a page does "a few frames later" is done, however slow it is
FRAMES = """(left) => new Promise((done) => {
  const next = () => (left-- > 0 ? requestAnimationFrame(next) : done());
  next();
})"""


def frames(page: Page, number: int = 10) -> None:
    """Wait until the page has been drawn so many times."""
    page.evaluate(FRAMES, number)


def page_until(page: Page, true: Callable[[], Found], what: str = "it") -> Found:
    """Ask again and again until the answer is true, the page going on meanwhile; returns it."""
    return until(true, what, pause=lambda seconds: page.wait_for_timeout(seconds * 1000))


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
