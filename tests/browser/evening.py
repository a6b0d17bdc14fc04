"""A signed-in phone and its server, made once and copied for each test. Not a test module."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, Playwright, expect

from seed_demo.club import COACHES, PASSPHRASE
from tests.browser.database import read
from tests.browser.phone import SHELL, Phone, page_until
from tests.browser.server import Server
from tests.browser.strip import all_sent, sign_in
from tests.ports import free_port

# whether the second copy has so many standings, and the server nothing after the cursor
COPIED = """async ([standings, from]) => {
  const mirror = await caches.open("cue-ladder-mirror");
  // WebKit gives out half of what is just being written
  const copy = await mirror.match("/mirror").then((reply) => reply?.json()).catch(() => null);
  if (copy?.standings?.length !== standings) return false;
  const left = await (await fetch(`/api/events?after=${from}&limit=1`)).json();
  return left.events.length === 0;
}"""


@dataclass
class Salle:
    """A server and a phone at one address.

    Attributes:
        coach: who is signed in on the phone; `other` is a second coach of the club.
    """

    server: Server
    phone: Phone
    coach: str = COACHES[0]["name"]
    other: str = COACHES[1]["name"]

    def open(self, path: str = "/") -> Page:
        """Start the phone on a path."""
        return self.phone.start(path)


@dataclass
class Evening:
    """Folders to copy, and the port they belong to: a browser's storage is bound to an address."""

    playwright: Playwright
    home: Path
    port: int

    @contextmanager
    def copy(
        self, folder: Path, behind: int | None = None, static: Path | None = None
    ) -> Iterator[Salle]:
        """A fresh copy, running.

        Args:
            folder: where to put it.
            behind: the server's own port, when something else will answer at the phone's address.
            static: another build of the front end to serve.
        """
        shutil.copytree(self.home / "data", folder / "data")
        shutil.copytree(self.home / "profile", folder / "profile")
        server = Server(folder / "data", static, behind or self.port)
        url = f"http://localhost:{self.port}"
        phone = Phone(self.playwright, folder / "profile", url, program=SHELL)
        server.start()
        try:
            yield Salle(server, phone)
        finally:
            phone.close()
            server.stop()


def held(page: Page) -> tuple[int, int]:
    """How many events and standings the phone's database holds."""
    events, standings = read(page.evaluate, ("events", "count"), ("standings", "count"))
    return events, standings


def wait_until_fetched(page: Page) -> tuple[int, int]:
    """Wait until the phone has all there is, second copy included; what it holds (see `held`)."""
    page_until(page, lambda: has_fetched(page.evaluate), "all there is to fetch")
    return held(page)


def has_fetched(ask: Callable[..., Any]) -> bool:
    """Whether the phone has all there is, second copy included; ``ask`` as in `read`."""
    standings, cursor = read(ask, ("standings", "count"), ("meta", "get", "eventsCursor"))
    return cursor is not None and bool(ask(COPIED, [standings, cursor]))


def make_evening(playwright: Playwright, season: tuple[Path, object], home: Path) -> Evening:
    """Sign a phone in, let it fetch, and put both away."""
    evening = Evening(playwright, home, free_port())
    shutil.copytree(season[0], home / "data")
    server = Server(home / "data", port=evening.port)
    server.start()
    phone = Phone(playwright, home / "profile", server.url, program=SHELL)
    page = phone.start()
    sign_in(page, COACHES[0]["name"], PASSPHRASE)
    expect(page.locator("ol.plan li").first).to_be_visible()
    wait_until_fetched(page)
    phone.close()
    server.stop()
    return evening


def offline(page: Page, salle: Salle) -> None:
    """No server, and a phone that knows it."""
    salle.server.stop()
    page.context.set_offline(True)


def online(page: Page, salle: Salle) -> None:
    """Both back, and everything sent by the coach's own tap."""
    salle.server.start()
    page.context.set_offline(False)
    page.get_by_test_id("sync").click()
    page.get_by_role("button", name="Send now").click()
    all_sent(page)
