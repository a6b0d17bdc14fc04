"""Measure the phone against its bars, in real Chromium: `python -m tests.bench`.

On a machine with other work, `chrt -r 1 python -m tests.bench` (as root) keeps that work out of
the figures; the floor in the table says what the machine itself takes for a tap.
"""

from __future__ import annotations

import argparse
import os
import tempfile
from pathlib import Path

from playwright.sync_api import CDPSession, Page, Playwright, sync_playwright

import cueladder
from tests.bench import start as starting
from tests.bench import taps as tapping
from tests.bench.history import make_history
from tests.bench.lessons import fetch_all, start_lesson
from tests.bench.size import strip_script
from tests.bench.start import cold_starts
from tests.bench.table import Table
from tests.bench.taps import FLOOR, PROBE, percentiles, taps, throttled
from tests.browser.phone import Phone
from tests.browser.server import ServerProcess

LESSON = 125
# A tap's and a start's bars, as times an empty page's of the same run: the mean of those before and
# after it, since a machine's other work comes and goes.
TAP, START = 1.4, 2.0


def main() -> None:
    """Run what was asked for and print one table."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("--taps", type=int, default=500, help="taps of each kind of phone")
    parser.add_argument("--static", type=Path, default=Path(cueladder.__file__).parent / "static")
    asked = parser.parse_args()
    table = Table()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        home = Path(folder)
        before = _floor(playwright, home / "before", asked.taps, "before", table)
        fresh, _ = _phone(playwright, home / "fresh", asked, 1, "fresh phone", table)
        between = _floor(playwright, home / "between", asked.taps, "between", table)
        full, starts = _phone(playwright, home / "full", asked, 6, "after 20,000 trials", table)
        after = _floor(playwright, home / "after", asked.taps, "after", table)
        near = (before[0] + between[0]) / 2, (between[0] + after[0]) / 2
        table.times("tap p95, fresh phone", fresh, near[0], TAP)
        table.times("tap p95, after 20,000 trials", full, near[1], TAP)
        for what, start in starts.items():
            table.times(f"cold offline start to {what}", start, (between[1] + after[1]) / 2, START)
        spread = max(before[0], between[0], after[0]) / min(before[0], between[0], after[0]) - 1
        table.add("noise: an empty page's taps apart from one time to the next", spread * 100, "%")
    table.add("strip script, gz", strip_script(asked.static) / 1024, "kB", 40)
    print(f"\n{table}\n\n6x slower processor, {os.cpu_count()} cores, load {os.getloadavg()}")


def _floor(
    playwright: Playwright, home: Path, times: int, when: str, table: Table
) -> tuple[float, float]:
    """An empty page's tap (p95) and start (median of 5), in ms: other work shows here, too."""
    home.mkdir()
    page_file = home / "floor.html"
    page_file.write_text(FLOOR)
    phone = Phone(playwright, home / "profile", page_file.as_uri())
    page = phone.start_blank()
    page.context.add_init_script(PROBE)
    page.goto(page_file.as_uri())
    found = taps(page, throttled(page), min(times, 60), 1, ("correct",))
    tap = _report(table, f"floor {when}: an empty page", found)
    phone.close()
    start = cold_starts(phone, "")[2][-1]
    table.add(f"floor {when}: start of an empty page, median of 5", start, "ms")
    return tap, start


def _phone(
    playwright: Playwright,
    home: Path,
    asked: argparse.Namespace,
    weeks: int,
    name: str,
    table: Table,
) -> tuple[float, dict[str, float]]:
    """A tap's p95 and, on the full phone, the start to each screen (median of 5), in ms."""
    coach, trials = make_history(home / "data", weeks=weeks)
    server = ServerProcess(home / "data", asked.static)
    server.start()
    phone = Phone(playwright, home / "profile", server.url)
    page = phone.start_blank()
    page.context.add_init_script(PROBE)
    page.goto(server.url)
    print(f"{name}: {fetch_all(page, coach)} events on the phone, {trials} trials", flush=True)
    found = []
    for number in range(-(-asked.taps // LESSON)):
        lesson = start_lesson(page, number)
        session = throttled(page)
        page.wait_for_timeout(2000)
        found += taps(page, session, min(LESSON, asked.taps - len(found)), number)
        session.send("Emulation.setCPUThrottlingRate", {"rate": 1})
        session.detach()
    tap = _report(table, f"tap, {name}", found)
    table.steps("a step of a tap", tapping.STEPS, found)
    if weeks > 1:
        _memory(page, table)
    page.wait_for_timeout(6000)
    phone.close()
    server.stop()
    ready: dict[str, float] = {}
    if weeks > 1:
        for path, what in (("/", "Today"), (lesson[len(server.url) :], "the strip")):
            starts = cold_starts(phone, path)
            ready[what] = starts[2][-1]
            table.add(f"cold offline start to {what}, median of 5", ready[what], "ms")
            table.add(f"cold offline start to {what}, slowest of 5", starts[-1][-1], "ms")
            table.steps("a step of a start", starting.STEPS, starts)
    return tap, ready


def _report(table: Table, name: str, found: list[list[float]]) -> float:
    """Note the percentiles; the 95th is returned."""
    p50, p95, p99 = percentiles([tap[-1] for tap in found])
    table.add(f"{name}, painted p50", p50, "ms")
    table.add(f"{name}, painted p95", p95, "ms")
    table.add(f"{name}, painted p99", p99, "ms")
    return p95


def _memory(page: Page, table: Table) -> None:
    """Eight lessons of 150 marks, by keys."""
    for number in range(8):
        start_lesson(page, number + 8)
        for _ in range(150):
            before = page.get_by_test_id("last-mark").get_attribute("data-last")
            page.keyboard.press("1")
            while page.get_by_test_id("last-mark").get_attribute("data-last") == before:
                page.wait_for_timeout(5)
    session = page.context.new_cdp_session(page)
    table.add("script memory after 8 lessons, 1,200 marks", _heap(session), "MB")


def _heap(session: CDPSession) -> float:
    session.send("HeapProfiler.collectGarbage")
    return session.send("Runtime.getHeapUsage")["usedSize"] / 1e6


if __name__ == "__main__":
    main()
