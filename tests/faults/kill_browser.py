"""Kill the whole browser at random moments of marking, and ask what the screen had promised.

`python -m tests.faults.kill_browser --kills 500 --engine webkit` prints what was lost: the bar is
nothing. Every tenth time the browser also loses its whole IndexedDB while it is dead, as browsers
have been seen to do by themselves.
"""

from __future__ import annotations

import argparse
import http.client
import random
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from playwright.sync_api import Error, sync_playwright

from cueladder.app import create_app
from seed_demo.club import PASSPHRASE
from seed_demo.make import make
from tests.browser.engines.chromium import Chromium
from tests.browser.engines.coach import all_sent, by, events, open_lesson, quick, sign_in
from tests.browser.engines.engine import Engine
from tests.browser.engines.engines import ENGINES
from tests.browser.engines.webkit import end_screen
from tests.browser.server import Server
from tests.patience import until

WATCH = (Path(__file__).parent / "shown.js").read_text()
TAP = """(kind) => {
  const one = document.querySelector(`[data-testid=mark-${kind}]`);
  if (one) one.click();
}"""
# About what a mark takes, so that a kill falls before, between and after its two writes.
LATEST_S = 0.9
EMPTIED_EVERY = 10
# how a command fails whose browser has died under it
DEAD = (Error, OSError, RuntimeError, ValueError, http.client.HTTPException)


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


def kill_often(
    engine: Engine,
    url: str,
    lesson: str,
    kills: int,
    seed: int,
    emptied_every: int = EMPTIED_EVERY,
    say: Callable[[Tally], object] = lambda _: None,
) -> Tally:
    """Mark, kill, start again and count; the engine shows the lesson on a drill.

    Args:
        engine: started and on the strip.
        url: of the server, which is gone.
        lesson: the lesson on the strip.
        kills: how many.
        seed: of the moments.
        emptied_every: at which of so many the database is taken away, too.
        say: called with the count after each.
    """
    chance = random.Random(seed)
    tally = Tally()
    for n in range(kills):
        shown, tapped = _mark_until_killed(engine, chance)
        tally.kills += 1
        tally.shown |= shown
        tally.tapped_not_shown += tapped > len(shown)
        emptied = n % emptied_every == emptied_every // 2
        if emptied:
            engine.empty_database()
            tally.emptied += 1
        engine.start()
        engine.go(f"{url}/strip/{lesson}")
        quick(engine)
        engine.shows(f"{by('mark-correct')}:enabled")
        told = bool(engine.ask(TOLD))
        tally.restored += told
        tally.emptied_by_itself += told and not emptied
        tally.lost |= tally.shown - {event["id"] for event in events(engine, lesson)}
        say(tally)
    return tally


TOLD = """() => [...document.querySelectorAll("[data-testid=notice]")].some((one) =>
  one.innerText.includes("emptied"))"""


def _mark_until_killed(engine: Engine, chance: random.Random) -> tuple[set[str], int]:
    """Tap until the browser dies under the taps; what was shown, and how many taps were made."""
    before = len(engine.told())
    engine.ask(f"() => {{ const cueLadderShown = {engine.tell}; {WATCH} }}")
    for tapped in range(1, chance.randrange(2, 5)):
        engine.ask(TAP, chance.choice(KINDS))
        until(lambda at=tapped: len(engine.told()) >= before + at, "a mark on the screen")
    moment = chance.expovariate(6)
    killer = threading.Timer(min(moment, LATEST_S), engine.kill)
    killer.start()
    try:
        while killer.is_alive():
            tapped += 1
            engine.ask(TAP, chance.choice(KINDS))
            engine.pause(chance.uniform(0.001, 0.06))
    except DEAD:
        pass
    killer.join()
    return set(engine.told()[before:]), tapped


KINDS = ["correct", "correct", "correct", "late"]


def prepare(engine: Engine, home: Path) -> tuple[Server, str]:
    """A small club, a phone signed in and on a lesson, then no server; it, and the lesson."""
    app = create_app({"DATA": str(home / "data"), "ARGON2": (1, 8, 1)})
    with app.app_context():
        coach = make(date.today(), weeks=1).coach
    server = Server(home / "data")
    server.start()
    engine.start()
    sign_in(engine, server.url, coach, PASSPHRASE)
    return server, begin(engine, server)


def begin(engine: Engine, server: Server) -> str:
    """Open a lesson with the first fencer of the list, stop the server; the lesson."""
    lesson = open_lesson(engine)
    all_sent(engine)
    server.stop()
    return lesson


def _now_and_then(tally: Tally) -> None:
    if tally.kills % 20 == 0:
        print(tally, flush=True)


def main() -> None:
    """Run and print; the exit status says whether anything was lost."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults.kill_browser")
    parser.add_argument("--kills", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--engine", choices=ENGINES, default="chromium")
    asked = parser.parse_args()
    kind = ENGINES[asked.engine]
    if lacks := kind.missing():
        sys.exit(lacks)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        Chromium.playwright = playwright
        engine = kind(Path(folder) / "profile")
        server, lesson = prepare(engine, Path(folder))
        start = time.monotonic()
        tally = kill_often(engine, server.url, lesson, asked.kills, asked.seed, say=_now_and_then)
        engine.close()
        end_screen()
        print(f"{kind.name}: {tally}; {time.monotonic() - start:.0f} s")
    sys.exit(1 if tally.lost else 0)


if __name__ == "__main__":
    main()
