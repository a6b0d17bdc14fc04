"""Each desk page on the demo club, cold: how long until the last thing it asked for was there.

The server has just been started and has answered nothing yet; the browser holds the app and the
club, as any but the first visit does. Measured in the page, from the beginning of the navigation;
beside it what the server's processor was busy for, which other work on the machine leaves alone.

    python -m tests.bench.desk [--data demo-data/…]
"""

from __future__ import annotations

import argparse
import os
import shutil
import tempfile
from datetime import date
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from seed_demo.club import COACHES, PASSPHRASE
from seed_demo.hosting import stand_up
from tests.bench.table import Table
from tests.browser.phone import ARGUMENTS, DESK, Guest
from tests.browser.server import ServerProcess
from tests.browser.strip import sign_in
from tests.ports import free_port

BAR_MS = 1000
ANSWERED = """() => Math.max(
  performance.getEntriesByType("navigation")[0].domContentLoadedEventEnd,
  ...performance.getEntriesByType("resource")
    .filter((one) => !one.name.includes("/health"))
    .map((one) => one.responseEnd),
)"""
PAGES = {
    "Today": "/",
    "Fencers": "/fencers",
    "a fencer": "/fencers/{fencer}",
    "a fencer's record": "/record/{fencer}",
    "Drills": "/drills",
    "a drill": "/drills/{drill}",
    "Rules": "/rules",
    "Club": "/club",
    "Records": "/records",
}


def busy_ms(server: ServerProcess) -> float:
    """Milliseconds of processor that the server has used."""
    fields = Path(f"/proc/{server.process.pid}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) * 1000 / os.sysconf("SC_CLK_TCK")


def cold(page: Page, server: ServerProcess, path: str) -> tuple[float, float]:
    """(milliseconds until the last answer, the server's own) of a page right after a start."""
    page.goto("about:blank")
    server.stop()
    server.start()
    before = busy_ms(server)
    page.goto(server.url + path, wait_until="networkidle")
    return page.evaluate(ANSWERED), busy_ms(server) - before


def main() -> None:
    """Print a table."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.desk", description=__doc__)
    parser.add_argument("--data", type=Path, help="folder of a demo database that is there already")
    asked = parser.parse_args()
    table = Table()
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        folder = Path(name) / "data"
        if asked.data:
            shutil.copytree(asked.data, folder)
        else:
            stand_up(Path(name), date.today(), 17, print)
            folder = Path(name) / date.today().isoformat()
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=ARGUMENTS
        )
        server = ServerProcess(folder, port=free_port())
        server.start()
        desk = Guest(browser, server.url, viewport=DESK)
        page = desk.start()
        sign_in(page, COACHES[0]["name"], PASSPHRASE)
        page.wait_for_load_state("networkidle")
        club = page.evaluate("fetch('/api/club').then((reply) => reply.json())")
        ids = {"fencer": club["fencers"][0]["id"], "drill": club["drills"][0]["id"]}
        for what, path in PAGES.items():
            took, busy = cold(page, server, path.format(**ids))
            table.add(f"{what}, cold", took, "ms", BAR_MS)
            table.add(f"{what}, cold: the server's processor", busy, "ms")
        desk.close()
        browser.close()
        server.stop()
    print(f"\n{table}\n\n{os.cpu_count()} cores, load {os.getloadavg()}")


if __name__ == "__main__":
    main()
