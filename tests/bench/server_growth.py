"""Does the app stay as quick while the store grows from 10,000 trials to millions?

A small club's evenings are pushed through the app; then its fencers, lessons, marks and standings
are copied row by row inside the database until a size is reached, and the file is set aside. At
the end all sizes are asked in turns, so that whatever else the machine does disturbs them alike.
One fencer (``usual``) keeps a short history; another (``elder``) has more lessons at each size, up
to 1,000.

    python -m tests.bench.server_growth [--sizes 10000 100000 1000000] [--times 100]
"""

from __future__ import annotations

import argparse
import copy
import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date, timedelta
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import Any

from sqlalchemy import func, insert, literal, select, text

from cueladder.app import create_app
from cueladder.store.access.links import create_link
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from cueladder.store.db.models import Event, Fencer, Lesson, LessonDrill, Standing
from tests.bench.server_ingest import CHEAP, EVENTS, evening
from tests.store.club import Browser, Club

SIZES = (10_000, 100_000, 1_000_000)
FENCERS = 10
LONGEST = 1_000
FIRST, LAST, LATER = date(2026, 3, 2), date(2026, 3, 30), date(2026, 6, 1)
TABLES = (Fencer, Lesson, LessonDrill, Standing, Event)
COOKIE = "cue_ladder"


@contextmanager
def opened(folder: Path) -> Iterator[Any]:
    """The app on the folder's file."""
    app = create_app({"DATA": folder, "DATABASE_URL": None, **CHEAP})
    with app.app_context():
        yield app
        db.session.remove()
        db.engine.dispose()


def base(app: Any) -> Club:
    """Ten fencers and 2,500 events, all pushed through the app."""
    migrate.up()
    club = Club(app)
    everyone = [club.add_fencer(f"Fencer {i}") for i in range(FENCERS)]
    drills = [club.add_drill(slug=f"drill-{i}") for i in range(3)]
    for week in range(5):
        phone, events = club.phone(), []
        for fencer in everyone:
            club.fencers = [fencer]
            events += evening(club, phone, drills, lessons=10)[: EVENTS // 10]
        for event in events:
            if event["type"] == "lesson_opened":
                event["day"] = (FIRST + timedelta(weeks=week)).isoformat()
        club.browser.push(*events)
    club.fencers = everyone
    club.links = [create_link(club.id, fencer, club.coach).token for fencer in everyone[:2]]
    club.cookie = club.browser.client.get_cookie(COOKIE).value
    club.first_seq = db.session.scalar(text("SELECT seq FROM club"))
    return club


def grow(club: Club, copies: range) -> None:
    """Copy the first ten fencers with all that is theirs, once for each number."""
    with db.engine.begin() as connection:
        last = connection.scalar(text("SELECT seq FROM club"))
        for k in copies:
            for model in TABLES:
                connection.execute(copied(model, club, f"{k:07x}", last))
            last += club.first_seq
        connection.execute(text("UPDATE club SET seq = :seq"), {"seq": last})


def copied(model: type[Any], club: Club, tail: str, shift: int) -> Any:
    """INSERT … SELECT of the first rows under new ids (the last digits are the copy's number)."""
    table = model.__table__
    renamed = {"id", "lesson_id", "fencer_id"} if model is not Fencer else {"id"}
    columns = []
    for column in table.c:
        if column.name in renamed:
            columns.append(func.substr(column, 1, 29) + literal(tail))
        elif column.name == "seq":
            columns.append(column + shift)
        else:
            columns.append(column)
    mine = (table.c.id if model is Fencer else table.c.fencer_id).in_(club.fencers)
    rows = select(*columns).where(table.c.club_id == club.id, mine)
    if "seq" in table.c:
        rows = rows.where(table.c.seq <= club.first_seq)
    if model in (Lesson, LessonDrill):
        rows = rows.where(table.c.day.between(FIRST.isoformat(), LAST.isoformat()))
    return insert(table).from_select([c.name for c in table.c], rows)


def lengthen(club: Club, fencer: str, lessons: range) -> None:
    """More lessons of one fencer on earlier days: the same cues again, the same walks."""
    mine = {m: select(m.__table__).where(m.__table__.c.fencer_id == fencer) for m in TABLES[1:]}
    with db.engine.begin() as connection:
        first = connection.execute(mine[Lesson].order_by(Lesson.day.desc()).limit(1)).mappings()
        lesson = dict(first.one())
        rows = {
            model: [
                dict(row)
                for row in connection.execute(mine[model]).mappings()
                if row["lesson_id"] == lesson["id"]
            ]
            for model in (LessonDrill, Event)
        }
        seq = connection.scalar(text("SELECT seq FROM club"))
        for k in lessons:
            day = {"day": (FIRST - timedelta(days=3 * k)).isoformat()}
            named = {"lesson_id": f"{lesson['id'][:29]}e{k:06x}"}
            connection.execute(insert(Lesson), {**lesson, **day, "id": named["lesson_id"]})
            walks = [{**row, **named, **day} for row in rows[LessonDrill]]
            connection.execute(insert(LessonDrill), walks)
            events = [
                {**row, **named, "seq": seq + i, "id": f"{row['id'][:29]}e{k:06x}"}
                for i, row in enumerate(rows[Event], start=1)
            ]
            connection.execute(insert(Event), events)
            seq += len(events)
        connection.execute(text("UPDATE club SET seq = :seq"), {"seq": seq})


def grown(club: Club, folder: Path, sizes: list[int]) -> list[Path]:
    """A folder with a database of each size."""
    each = db.session.scalar(select(func.count()).where(Event.type == "cue_marked"))
    db.session.remove()
    copies, lessons, folders = 1, 1, []
    for step, size in enumerate(sizes, start=1):
        grow(club, range(copies, max(copies, size // each)))
        longer = LONGEST * 10**step // 10 ** len(sizes)
        lengthen(club, club.fencers[1], range(lessons, longer))
        copies, lessons = max(copies, size // each), max(lessons, longer)
        with db.engine.connect() as connection:
            connection.exec_driver_sql("ROLLBACK")
            connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
            connection.exec_driver_sql("BEGIN")
        folders.append(folder / f"{step}")
        folders[-1].mkdir()
        shutil.copy(folder / "cueladder.sqlite", folders[-1])
        print(f"made {size:,}, load {os.getloadavg()[0]:.1f}", flush=True)
    return folders


def asked(club: Club) -> dict[str, Callable[[], Any]]:
    """What is measured, by name."""
    phones = []
    for fencer in club.fencers[:2]:
        club.fencer = fencer
        phones.append(club.phone())
        club.browser.push(phones[-1].open(day=LATER.isoformat()), phones[-1].cue())

    def mark(who: int) -> None:
        assert club.browser.push(phones[who].cue())["lessons"]

    def get(path: str) -> None:
        assert club.browser.get(path).status_code == 200

    after = club.browser.push(phones[0].cue())["seq"] - 1
    return {
        "mark and its suggestion, usual": lambda: mark(0),
        "mark and its suggestion, elder": lambda: mark(1),
        "standings after the last": lambda: get(f"/api/standings?after={after}"),
        "progress page, usual": lambda: get(f"/p/{club.links[0]}"),
        "progress page, elder": lambda: get(f"/p/{club.links[1]}"),
    }


class Outside(Browser):
    """A browser with no application context around it: several apps take turns."""

    def open(self, path: str, **kwargs: Any) -> Any:
        """One request."""
        return self.client.open(path, buffered=True, **kwargs)


def measure(club: Club, folders: list[Path], times: int) -> dict[str, list[list[Any]]]:
    """For each question and each size (wall, processor) milliseconds; all take turns."""
    jobs = []
    for folder in folders:
        here = copy.copy(club)
        here.app = create_app({"DATA": folder, "DATABASE_URL": None, **CHEAP})
        here.browser = Outside(here.app)
        here.browser.client.set_cookie(COOKIE, club.cookie)
        jobs.append(asked(here))
    told: dict[str, list[list[Any]]] = {name: [[] for _ in jobs] for name in jobs[0]}
    for turn in range(times + 3):
        for name, took in told.items():
            for size, job in enumerate(jobs):
                began = perf_counter(), process_time()
                job[name]()
                if turn >= 3:
                    took[size].append((perf_counter() - began[0], process_time() - began[1]))
    return told


def main() -> None:
    """Print milliseconds at each size, and each against the first."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--sizes", type=int, nargs="+", default=list(SIZES))
    parser.add_argument("--times", type=int, default=100)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory(dir=".") as name:
        folder = Path(name)
        with opened(folder) as app:
            club = base(app)
            folders = grown(club, folder, given.sizes)
        told = measure(club, folders, given.times)
    print(f"trials stored: {given.sizes}; load {os.getloadavg()[0]:.1f}")
    for name, sizes in told.items():
        wall, cpu = ([1000 * median(one[i] for one in took) for took in sizes] for i in (0, 1))
        print(
            f"{name}: {' '.join(f'{ms:.1f}' for ms in wall)} ms, "
            f"last ÷ first {wall[-1] / wall[0]:.2f} (of processor {cpu[-1] / cpu[0]:.2f})"
        )


if __name__ == "__main__":
    main()
