"""Kill the whole browser at random moments of marking, and ask what the screen had promised.

`python -m tests.faults.kill_browser --kills 500` prints what was lost: the bar is nothing. Every
tenth time the browser also loses its whole IndexedDB while it is dead, as browsers have been seen
to do by themselves.
"""

from __future__ import annotations

import argparse
import random
import shutil
import sys
import tempfile
import threading
import time
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from playwright.sync_api import Error, Page, Playwright, expect, sync_playwright

from cueladder.app import create_app
from seed_demo.club import PASSPHRASE
from seed_demo.make import make
from tests.browser.phone import Phone
from tests.browser.server import Server
from tests.browser.strip import all_sent, events, lesson_of, open_lesson, sign_in

WATCH = (Path(__file__).parent / "shown.js").read_text()
# About what a mark takes, so that a kill falls before, between and after its two writes.
LATEST_S = 0.9
EMPTIED_EVERY = 10


@dataclass
class Tally:
    """What happened: marks the screen showed, those gone after a restart, and the odd cases."""

    kills: int = 0
    shown: set[str] = field(default_factory=set)
    lost: set[str] = field(default_factory=set)
    emptied: int = 0
    emptied_by_itself: int = 0
    restored: int = 0
    tapped_not_shown: int = 0

    def __str__(self) -> str:
        return (
            f"{self.kills} kills, {len(self.shown)} marks shown, {len(self.lost)} lost; "
            f"{self.tapped_not_shown} killed between tap and shown; IndexedDB emptied "
            f"{self.emptied} times by the test and {self.emptied_by_itself} times by the browser, "
            f"{self.restored} of them told to the coach"
        )


def kill_often(phone: Phone, page: Page, kills: int, seed: int) -> Tally:
    """Mark, kill, start again and count; `page` shows a lesson on a drill."""
    chance = random.Random(seed)
    tally = Tally()
    lesson = lesson_of(page)
    for n in range(kills):
        shown, tapped = _mark_until_killed(phone, page, chance)
        tally.kills += 1
        tally.shown |= shown
        tally.tapped_not_shown += tapped > len(shown)
        emptied = n % EMPTIED_EVERY == EMPTIED_EVERY // 2
        if emptied:
            _empty_indexeddb(phone.profile)
            tally.emptied += 1
        page = phone.start(f"/strip/{lesson}")
        expect(page.get_by_test_id("mark-correct")).to_be_visible(timeout=60_000)
        told = page.get_by_test_id("notice").filter(has_text="emptied").count() > 0
        tally.restored += told
        tally.emptied_by_itself += told and not emptied
        kept = {event["id"] for event in events(page, lesson)}
        tally.lost |= tally.shown - kept
    return tally


def _mark_until_killed(phone: Phone, page: Page, chance: random.Random) -> tuple[set[str], int]:
    """Tap until the browser dies under the taps; what was shown, and how many taps were made."""
    shown: set[str] = set()
    page.expose_function("cueLadderShown", lambda mark: shown.add(mark))
    page.evaluate(WATCH)
    for _ in range(chance.randrange(1, 4)):
        before = len(shown)
        page.keyboard.press(chance.choice("1112"))
        while len(shown) == before:
            page.wait_for_timeout(5)
    tapped = len(shown)
    moment = chance.expovariate(6)
    killer = threading.Timer(min(moment, LATEST_S), phone.kill)
    killer.start()
    try:
        while killer.is_alive():
            tapped += 1
            page.keyboard.press(chance.choice("1112"))
            page.wait_for_timeout(chance.uniform(1, 60))
    except Error:
        pass
    killer.join()
    return shown, tapped


def _empty_indexeddb(profile: Path) -> None:
    for folder in profile.glob("*/IndexedDB"):
        shutil.rmtree(folder)


def prepare(playwright: Playwright, home: Path) -> tuple[Phone, Server, Page]:
    """A small club, a phone signed in and on a lesson; then the server is gone."""
    app = create_app({"DATA": str(home / "data"), "ARGON2": (1, 8, 1)})
    with app.app_context():
        coach = make(date.today(), weeks=1).coach
    server = Server(home / "data")
    server.start()
    phone = Phone(playwright, home / "profile", server.url)
    return phone, server, begin(phone, server, coach)


def begin(phone: Phone, server: Server, coach: str) -> Page:
    """Sign in, open a lesson with the first fencer of the list, stop the server."""
    page = phone.start()
    sign_in(page, coach, PASSPHRASE)
    open_lesson(page)
    all_sent(page)
    page.wait_for_timeout(1000)
    server.stop()
    return page


def main() -> None:
    """Run and print; the exit status says whether anything was lost."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults.kill_browser")
    parser.add_argument("--kills", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        phone, _server, page = prepare(playwright, Path(folder))
        start = time.monotonic()
        tally = kill_often(phone, page, asked.kills, asked.seed)
        phone.close()
        print(f"{tally}; {time.monotonic() - start:.0f} s")
    sys.exit(1 if tally.lost else 0)


if __name__ == "__main__":
    main()
