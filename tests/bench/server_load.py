"""200 phones come online at once with an evening each, then go on marking, on loopback.

Each phone reads its club, pushes its evening, pulls the standings and then sends single marks. The
servers run in processes of their own: gunicorn over PostgreSQL, and `cueladder serve` (waitress)
over SQLite. Phones run in this process, so the machine's cores are shared with them.

    python -m tests.bench.server_load [--phones 200] [--clubs 20] [--marks 10] [--only sqlite]
"""

from __future__ import annotations

import argparse
import http.client
import os
import random
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from cueladder.app import create_app
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from tests.bench.server_ingest import CHEAP
from tests.conftest import POSTGRES, empty_database
from tests.faults.server_run import call
from tests.patience import until
from tests.ports import free_port
from tests.store.club import Club, Phone

LESSONS, CUES = 3, 50
WORKERS, THREADS = 3, 4


class Times:
    """Milliseconds by what was asked, and what went wrong."""

    def __init__(self) -> None:
        self.took: dict[str, list[float]] = defaultdict(list)
        self.wrong: Counter[str] = Counter()

    def ask(self, what: str, *words: Any) -> Any:
        """One call; the answer, or None."""
        began = time.perf_counter()
        try:
            status, said, _ = call(*words, timeout=120)
        except (OSError, http.client.HTTPException, ValueError) as error:
            self.wrong[f"{what}: {type(error).__name__}"] += 1
            return None
        self.took[what].append((time.perf_counter() - began) * 1000)
        if status != 200:
            self.wrong[f"{what}: {status}"] += 1
        return said

    def lines(self) -> Iterator[str]:
        """A line for each thing asked."""
        for what, took in self.took.items():
            took.sort()
            p50, p95 = took[len(took) // 2], took[int(len(took) * 0.95)]
            yield f"  {what}: {len(took)}, p50 {p50:.0f}, p95 {p95:.0f}, longest {took[-1]:.0f} ms"
        yield f"  errors: {dict(self.wrong) or 0}"


def made_phones(config: dict[str, Any], phones: int, clubs: int) -> list[tuple[str, Phone, list]]:
    """(cookie, phone, evening) of each phone; one coach a phone, several in a club."""
    app = create_app({**config, **CHEAP})
    made = []
    with app.app_context():
        migrate.up()
        for k in range(clubs):
            club = Club(app, f"Club {k}")
            for i in range(phones // clubs):
                name = f"Coach {i} of {club.row.name}"
                phone = club.phone(club.add_coach(name, "coach"))
                cookie = club.sign_in(name, phone.device).client.get_cookie("cue_ladder").value
                events = []
                for n in range(LESSONS):
                    club.fencer = club.add_fencer(f"Fencer {i}.{n}")
                    events += [phone.open(), *phone.cues(CUES)]
                made.append((cookie, phone, events))
        db.session.remove()
        db.engine.dispose()
    return made


def one_phone(times: Times, port: int, mine: tuple[str, Phone, list], marks: int) -> None:
    """What a phone does when it comes online."""
    cookie, phone, evening = mine
    times.ask("club", port, cookie, "GET", "/api/club")
    said = times.ask("evening", port, cookie, "POST", "/api/events", {"events": evening})
    if said and {r["status"] for r in said.get("results", [])} != {"stored"}:
        times.wrong["evening: not stored"] += 1
    times.ask("standings", port, cookie, "GET", "/api/standings")
    rng = random.Random(phone.device)
    for _ in range(marks):
        time.sleep(rng.uniform(1, 5))
        said = times.ask("mark", port, cookie, "POST", "/api/events", {"events": [phone.cue()]})
        if said and [r["status"] for r in said.get("results", [])] != ["stored"]:
            times.wrong["mark: not stored"] += 1


@contextmanager
def served(words: list[str], port: int, **environment: str) -> Iterator[None]:
    """A server in a process of its own, once it answers."""
    process = subprocess.Popen(
        [sys.executable, "-m", *words],
        env={**os.environ, **environment},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        until(lambda: _answers(port) or process.poll() is not None, "the server")
        yield
    finally:
        process.terminate()
        process.wait(30)


def _answers(port: int) -> bool:
    try:
        return call(port, "", "GET", "/api/health")[0] == 200
    except (OSError, http.client.HTTPException, ValueError):
        return False


def storm(port: int, phones: list[tuple[str, Phone, list]], marks: int) -> None:
    """All phones at once; prints what it took."""
    times, gate = Times(), threading.Barrier(len(phones) + 1)

    def run(mine: tuple[str, Phone, list]) -> None:
        gate.wait()
        one_phone(times, port, mine, marks)

    threads = [threading.Thread(target=run, args=(mine,)) for mine in phones]
    for thread in threads:
        thread.start()
    gate.wait()
    began = time.perf_counter()
    for thread in threads:
        thread.join()
    print(f"  in all {time.perf_counter() - began:.1f} s, load {os.getloadavg()[0]:.1f}")
    print("\n".join(times.lines()), flush=True)


def on_sqlite(phones: int, clubs: int, marks: int) -> None:
    """waitress over SQLite."""
    with tempfile.TemporaryDirectory(dir=".") as folder:
        made = made_phones({"DATA": Path(folder), "DATABASE_URL": None}, phones, clubs)
        port = free_port()
        words = ["cueladder.cli", "--data", folder, "serve", "--port", str(port)]
        with served(words, port):
            print(f"waitress + SQLite, {phones} phones of {clubs} clubs")
            storm(port, made, marks)


def on_postgresql(phones: int, clubs: int, marks: int) -> None:
    """gunicorn over PostgreSQL."""
    with empty_database(POSTGRES, "cueladder_load") as url:
        made = made_phones({"DATABASE_URL": url}, phones, clubs)
        port = free_port()
        words = ["gunicorn", "-b", f"127.0.0.1:{port}", "-w", str(WORKERS)]
        words += ["--threads", str(THREADS), "cueladder.app:create_app()"]
        with served(words, port, DATABASE_URL=url):
            print(f"gunicorn + PostgreSQL, {phones} phones of {clubs} clubs")
            storm(port, made, marks)


def main() -> None:
    """Both, one after the other."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--phones", type=int, default=200)
    parser.add_argument("--clubs", type=int, default=20)
    parser.add_argument("--marks", type=int, default=10)
    parser.add_argument("--only", choices=["sqlite", "postgresql"])
    given = parser.parse_args()
    if given.only != "sqlite":
        on_postgresql(given.phones, given.clubs, given.marks)
    if given.only != "postgresql":
        on_sqlite(given.phones, given.clubs, given.marks)


if __name__ == "__main__":
    main()
