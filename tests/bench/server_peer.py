"""A push of 500 events beside a general-purpose replication stack, in one run on one disk.

Ours: `cueladder serve` on SQLite, over HTTP on loopback; it parses, checks, folds and answers. The
other: PouchDB replicating the same 500 documents to express-pouchdb (LevelDB) from npm, which
stores and does no more. They take turns. npm fetches the stack into a temporary folder.

    python -m tests.bench.server_peer [--times 20]
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import tempfile
from pathlib import Path
from statistics import median
from time import perf_counter

from tests.bench.server_ingest import evening, made_club
from tests.browser.server import ServerProcess
from tests.faults.server_run import call
from tests.ports import free_port

STACK = ("pouchdb@9", "express-pouchdb@4", "express@4")
PEER = Path(__file__).with_name("peer.mjs")


class Peer:
    """The other stack in a process of its own."""

    def __init__(self, home: Path) -> None:
        quiet = ["--no-audit", "--no-fund", "--loglevel=error"]
        home.mkdir()
        (home / "package.json").write_text('{"private": true}')
        subprocess.run(["npm", "install", *quiet, *STACK], cwd=home, check=True)
        self.process = subprocess.Popen(
            ["node", PEER, home, str(free_port())],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        assert self.process.stdout.readline() == "ready\n", "the other stack did not start"

    def took_ms(self, batch: str) -> float:
        """Milliseconds to replicate one batch, a JSON array on one line."""
        self.process.stdin.write(batch + "\n")
        self.process.stdin.flush()
        return float(self.process.stdout.readline())

    def stop(self) -> None:
        """Let it end."""
        self.process.stdin.close()
        self.process.wait(30)


def push_ms(port: int, cookie: str, events: list[dict]) -> float:
    """Milliseconds of one push over HTTP."""
    began = perf_counter()
    status, said, _ = call(port, cookie, "POST", "/api/events", {"events": events})
    took = (perf_counter() - began) * 1000
    assert status == 200, said
    assert all(result["status"] == "stored" for result in said["results"])
    return took


def main() -> None:
    """Print both medians and their ratio."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--times", type=int, default=20)
    asked = parser.parse_args()
    ours, theirs = [], []
    with tempfile.TemporaryDirectory(dir=".") as name:
        home = Path(name).resolve()
        club, named = made_club(home, 3)
        cookie = club.browser.client.get_cookie("cue_ladder").value
        evenings = [evening(club, club.phone(), named, 4) for _ in range(asked.times + 2)]
        peer, server = Peer(home / "peer"), ServerProcess(home)
        server.start()
        try:
            for k, events in enumerate(evenings):
                pushed = push_ms(server.port, cookie, events)
                replicated = peer.took_ms(json.dumps(events))
                if k >= 2:  # the first ones warm up
                    ours.append(pushed)
                    theirs.append(replicated)
        finally:
            server.stop()
            peer.stop()
    print(
        f"500 events: our push {median(ours):.1f} ms; PouchDB to express-pouchdb "
        f"{median(theirs):.1f} ms ({median(theirs) / median(ours):.1f} times ours); "
        f"median of {asked.times}, load {os.getloadavg()[0]:.1f}"
    )


if __name__ == "__main__":
    main()
