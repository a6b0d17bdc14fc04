"""A push of 500 events through the whole app against a bare insert of the same rows.

Both write to an SQLite file on the same disk, with a write-ahead log and a sync at every commit
(``synchronous=FULL``), into the same table with the same indexes and foreign keys. The bare insert
gets its rows ready made; the push parses, checks, folds and answers. What is loaded is exempt from
garbage collection, as in `cueladder serve`. They take turns of ten.

    python -m tests.bench.server_ingest [--times 30] [--lessons 4] [--drills 3]
"""

from __future__ import annotations

import argparse
import json
import os
import random
import sqlite3
import tempfile
from datetime import date, timedelta
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

from cueladder.app import create_app
from cueladder.commands.serving import freeze_loaded
from cueladder.store.db import migrate
from tests.store.club import HEADER, Club, Phone

EVENTS, ROUND = 500, 10
FIRST = date(2026, 3, 2)
ROW = "SELECT * FROM event WHERE club_id = 1 AND id = ?"
CHEAP = {"ARGON2": (1, 8, 1)}
PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON")


def evening(
    club: Club, phone: Phone, drills: list[Any], lessons: int, day: str = "2026-03-02"
) -> list[dict[str, Any]]:
    """One evening on one phone: lessons of several drills, marks with their slips, 500 events."""
    rng, events, each = random.Random(phone.device), [], EVENTS // lessons
    for _ in range(lessons):
        club.fencer = rng.choice(club.fencers)
        start = len(events)
        events += [phone.open(day), phone.event("comfort_rated", when="before", value=6)]
        while len(events) < start + each - 1:
            at = (len(events) - start) * len(drills) // each
            named = dict(zip(("drill", "chart"), drills[at], strict=True))
            mark = rng.choices(["correct", "late", "early"], [85, 8, 7])[0]
            events.append(phone.cue(mark, loud=rng.random() < 0.5, **named))
        slip = rng.choice([e for e in events[start:] if e["type"] == "cue_marked"])
        events[-1] = phone.void(slip)
        events.append(phone.event("lesson_closed"))
    return events


def made_club(folder: Path, drills: int) -> tuple[Club, list[Any]]:
    """A club on a new SQLite file."""
    app = create_app({"DATA": folder, "DATABASE_URL": None, **CHEAP})
    app.app_context().push()
    migrate.up()
    club = Club(app)
    club.fencers = [club.add_fencer(f"Fencer {i}") for i in range(40)]
    named = [club.add_drill(slug=f"drill-{i}") for i in range(drills)]
    freeze_loaded()
    return club, named


def bare_file(folder: Path, club_file: Path) -> sqlite3.Connection:
    """A copy of the club's file, opened as the app opens its own."""
    with sqlite3.connect(club_file) as source, sqlite3.connect(folder / "bare.sqlite") as copy:
        source.backup(copy)
    bare = sqlite3.connect(folder / "bare.sqlite", isolation_level=None)
    for pragma in PRAGMAS:
        bare.execute(f"PRAGMA {pragma}")
    return bare


def push_ms(club: Club, body: bytes) -> float:
    """Milliseconds of one request, as the server's thread has it."""
    began = perf_counter()
    answer = club.browser.client.post(
        "/api/events", data=body, content_type="application/json", headers=HEADER
    )
    took = perf_counter() - began
    told = answer.get_json()["results"]
    assert all(result["status"] == "stored" for result in told), told
    return took * 1000


def bare_ms(bare: sqlite3.Connection, rows: list[Any]) -> float:
    """Milliseconds of one transaction that inserts the rows."""
    marks = ", ".join("?" * len(rows[0]))
    began = perf_counter()
    bare.execute("BEGIN IMMEDIATE")
    bare.executemany(f"INSERT INTO event VALUES ({marks})", rows)
    bare.execute("COMMIT")
    return (perf_counter() - began) * 1000


def measure(times: int, lessons: int, drills: int) -> tuple[list[float], list[float]]:
    """Milliseconds of each push and each bare insert."""
    pushes, inserts = [], []
    with tempfile.TemporaryDirectory(dir=".") as name:
        folder = Path(name)
        club, named = made_club(folder, drills)
        reader = sqlite3.connect(folder / "cueladder.sqlite")
        bare = bare_file(folder, folder / "cueladder.sqlite")
        for turn in range(-1, times // ROUND):  # the first round warms up
            first = FIRST + timedelta(days=(turn + 1) * ROUND)
            days = [(first + timedelta(days=k)).isoformat() for k in range(ROUND)]
            evenings = [evening(club, club.phone(), named, lessons, day) for day in days]
            bodies = [json.dumps({"events": events}).encode() for events in evenings]
            pushed = [push_ms(club, body) for body in bodies]
            batches = [
                [tuple(reader.execute(ROW, (event["id"],)).fetchone()) for event in events]
                for events in evenings
            ]
            inserted = [bare_ms(bare, rows) for rows in batches]
            if turn >= 0:
                pushes += pushed
                inserts += inserted
        bare.close()
        reader.close()
    return pushes, inserts


def main() -> None:
    """Print the medians and their ratio."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--times", type=int, default=30)
    parser.add_argument("--lessons", type=int, default=4)
    parser.add_argument("--drills", type=int, default=3)
    asked = parser.parse_args()
    pushes, inserts = measure(asked.times, asked.lessons, asked.drills)
    ratio = median(p / i for p, i in zip(pushes, inserts, strict=True))
    print(
        f"push of {EVENTS} events ({asked.lessons} lessons × {asked.drills} drills): "
        f"{median(pushes):.1f} ms; bare insert: {median(inserts):.1f} ms; "
        f"ratio {median(pushes) / median(inserts):.1f} (median of ratios {ratio:.1f}); "
        f"median of {asked.times}, load {os.getloadavg()[0]:.1f}"
    )


if __name__ == "__main__":
    main()
