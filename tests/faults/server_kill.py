"""The server is killed in mid-push, again and again; the phone sends until it is answered.

python -m tests.faults.server_kill [--kills 200] [--database URL]
"""

from __future__ import annotations

import argparse
import os
import random
import tempfile
import threading
import time
from pathlib import Path
from typing import Any

from cueladder.store.log.charts import chart_of
from cueladder.store.log.fields import sortable
from cueladder.store.log.fold import fold_history
from tests.faults.server_run import House, Queue, Served, check, lesson


def kill_often(house: House, kills: int, seed: int = 1) -> dict[str, Any]:
    """Kill the server so often while one phone pushes; returns the counts."""
    rng = random.Random(seed)
    phone, made = house.phone(), []
    server = Served(house)
    queue = Queue(server.port, house.cookie, rng)
    for _ in range(kills):
        while len(queue.unsent) < 400:
            some = lesson(phone, rng.choice(house.fencers), rng, 100)
            made += some
            queue.unsent += some
        server.start()
        # from before the first byte is read to after the last reply
        fuse = threading.Timer(rng.uniform(0.0, 0.3), server.stop)
        fuse.start()
        while server.runs():
            if not queue.unsent or not queue.send_once():
                time.sleep(0.001)
        fuse.join()
    with server:
        queue.send_all(3600)
    lost, doubled = check(house, made)
    return {
        "kills": kills,
        "events": len(made),
        "requests": queue.tries,
        "cut off": queue.unanswered,
        "already stored": queue.words.get("already", 0),
        "problems": len(queue.problems),
        "lost": lost,
        "doubled": doubled,
        "standings wrong": wrong_standings(house, made),
    }


def wrong_standings(house: House, made: list[dict[str, Any]]) -> int:
    """How many standings differ from one fold of everything that was made."""
    with house.app.app_context():
        stood = house.standings()
        whole = {key: folded(house, made, *key) for key in stood}
        house.let_go()
    return sum(stood[key] != whole[key] for key in stood)


def folded(house: House, made: list[dict[str, Any]], fencer: str, drill: str) -> Any:
    """One fold of all the events of a fencer on a drill, straight from what the phone wrote."""
    lessons = []
    for opened in made:
        if opened["type"] == "lesson_opened" and opened["fencer"] == fencer:
            own = [_Written(e) for e in made if e["lesson"] == opened["id"]]
            at = sortable(opened["at"])
            lessons.append((opened["day"], at, opened["id"], opened["coach"], own))
    walk = fold_history(chart_of, house.club.chart, drill, lessons)
    return walk.to_json() if walk else None


class _Written:
    """An event of the phone, as the fold reads it."""

    def __init__(self, event: dict[str, Any]) -> None:
        self.id, self.type, self.n = event["id"], event["type"], event["n"]
        self.device_id, self.coach_id = event["device"], event["coach"]
        self.drill_id, self.payload = event.get("drill"), event


def main() -> None:
    """Kill, count and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--database", help="a PostgreSQL database without tables; else SQLite")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        house = House(Path(folder), given.database)
        for name, count in kill_often(house, given.kills).items():
            print(f"{name}: {count}")
    print(f"load {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
