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
from tests.bench.history import make_history
from tests.bench.lessons import fetch_all, start_lesson
from tests.bench.size import strip_script
from tests.bench.start import cold_start
from tests.bench.table import Table
from tests.bench.taps import FLOOR, PROBE, percentiles, taps, throttled
from tests.browser.phone import Phone
from tests.browser.server import Server

LESSON = 125


def main() -> None:
    """Run what was asked for and print one table."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("--taps", type=int, default=500, help="taps of each kind of phone")
    parser.add_argument("--static", type=Path, default=Path(cueladder.__file__).parent / "static")
    asked = parser.parse_args()
    table = Table()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        home = Path(folder)
        _floor(playwright, home / "before", asked.taps, "before", table)
        _phone(playwright, home / "fresh", asked, 1, "fresh phone", table)
        _floor(playwright, home / "between", asked.taps, "between", table)
        _phone(playwright, home / "full", asked, 6, "after 20,000 trials", table)
        _floor(playwright, home / "after", asked.taps, "after", table)
    table.add("strip script, gz", strip_script(asked.static) / 1024, "kB", 40)
    print(f"\n{table}\n\n6x slower processor, {os.cpu_count()} cores, load {os.getloadavg()}")


def _floor(playwright: Playwright, home: Path, times: int, when: str, table: Table) -> None:
    """What the machine takes for a tap on, and a start of, an empty page: other work shows here."""
    home.mkdir()
    page_file = home / "floor.html"
    page_file.write_text(FLOOR)
    phone = Phone(playwright, home / "profile", page_file.as_uri())
    page = phone.start_blank()
    page.context.add_init_script(PROBE)
    page.goto(page_file.as_uri())
    found = taps(page, throttled(page), min(times, 60), 1, ("correct",))
    _report(table, f"floor {when}: an empty page", found, False)
    phone.close()
    starts = sorted(cold_start(phone, "") for _ in range(5))
    table.add(f"floor {when}: start of an empty page, median of 5", starts[2], "ms")


def _phone(
    playwright: Playwright,
    home: Path,
    asked: argparse.Namespace,
    weeks: int,
    name: str,
    table: Table,
) -> None:
    coach, trials = make_history(home / "data", weeks=weeks)
    server = Server(home / "data", asked.static)
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
    _report(table, f"tap, {name}", found, True)
    if weeks > 1:
        _memory(page, table)
    page.wait_for_timeout(6000)
    phone.close()
    server.stop()
    if weeks > 1:
        for path, what in (("/", "Today"), (lesson[len(server.url) :], "the strip")):
            start = sorted(cold_start(phone, path) for _ in range(5))
            table.add(f"cold offline start to {what}, median of 5", start[2], "ms", 1000)
            table.add(f"cold offline start to {what}, slowest of 5", start[-1], "ms", 1000)


def _report(table: Table, name: str, found: list[list[float]], bars: bool) -> None:
    p50, p95, p99 = percentiles([tap[-1] for tap in found])
    kept = percentiles([tap[1] for tap in found])
    if bars:
        table.add(f"{name}, kept in both stores p95", kept[1], "ms")
    table.add(f"{name}, painted p50", p50, "ms")
    table.add(f"{name}, painted p95", p95, "ms", 50 if bars else None)
    table.add(f"{name}, painted p99", p99, "ms", 100 if bars else None)


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
