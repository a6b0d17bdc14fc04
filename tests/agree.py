"""The phone's walk against the server's fold: `make agree`, or `python -m tests.agree 5000`.

Random histories (lessons with breaks of all lengths, marks, corrections, rungs by hand, rests and
searches, some of it taken back, over drills that are changed under way or had charts of version 1)
go through the phone's own code under Node and through the server's fold. Every state, move and
suggestion must agree.
"""

from __future__ import annotations

import json
import random
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import IO, Any

from cueladder.rules import Chart, Mark, Walk, suggestion
from cueladder.store.log.fold import effective, fold_history, fold_lesson
from tests.drills import after_first, changed_ladders, charts

FRONTEND = Path(__file__).parent.parent / "frontend"
COACH = "coach"
DRILL = "drill"
BATCH = 500


@dataclass(frozen=True)
class Event:
    """An event as the fold reads it."""

    id: str
    type: str
    device_id: str
    n: int
    coach_id: str
    drill_id: str | None
    payload: dict[str, Any]

    def sent(self) -> dict[str, Any]:
        """The event as the phone has it."""
        drill = {"drill": self.drill_id} if self.drill_id else {}
        envelope = {"id": self.id, "type": self.type, "device": self.device_id, "n": self.n}
        return {**envelope, "coach": self.coach_id, **drill, **self.payload}


Lesson = tuple[str, str, str, str, list[Event]]


def history(versions: list[Chart], rng: random.Random) -> list[Lesson]:
    """One to six lessons on one drill, whose charts follow each other, now and then backwards."""
    day, n, lessons, chart = date(2026, 1, 5), 0, [], versions[0]
    for k in range(rng.randint(1, 6)):
        skill = rng.choice([0.5, 0.8, 0.93, 1.0])
        events: list[Event] = []
        for _ in range(rng.choice([rng.randint(1, 16), 30])):
            n += 1
            if rng.random() < 0.06:
                chart = rng.choice(versions)
            events.append(_event(chart, rng, n, skill, events))
        rng.shuffle(events)
        opened = f"{day.isoformat()}T17:00:00.000Z"
        lessons.append((day.isoformat(), opened, f"{k:04}", COACH, events))
        day += timedelta(
            days=rng.choice([0, 1, 7, 7, 7, 10, 11, 28, 29, 90, 91, rng.randint(0, 400)])
        )
    return lessons


def _event(chart: Chart, rng: random.Random, n: int, skill: float, before: list[Event]) -> Event:
    marked = [e.id for e in before if e.type == "cue_marked"]
    done = [e.id for e in before if e.type != "mark_voided"]
    chance = rng.random()
    kind, drill, payload = "cue_marked", DRILL, {}
    if chance < 0.05 and done:
        kind, drill, payload = "mark_voided", None, {"mark": rng.choice(done)}
    elif chance < 0.07:
        kind, payload = "rung_set", {"chart": chart.id, "place": rng.randrange(len(chart.places))}
    elif chance < 0.09:
        # phones of version 1 named no chart
        kind, payload = "drill_rested", {} if rng.random() < 0.2 else {"chart": chart.id}
    elif chance < 0.11 and chart.find:
        kind, payload = "start_sought", {"chart": chart.id}
    elif chance < 0.115:
        # where a lesson is given moves nothing
        told = {"giver": COACH, "hand": None, "where": "Gym", "state": "fresh"}
        kind, drill, payload = "setting_told", None, told
    elif chance < 0.12:
        kind, payload = "stop_called", {"chart": chart.id}
    else:
        given = rng.choice(list(chart.meaning))
        right = rng.random() < skill
        mark = Mark.CORRECT if right else rng.choice(list(chart.meaning[given]))
        payload = {
            "chart": chart.id,
            "given": given.value,
            "mark": mark.value.removesuffix("+tense"),
            "tense": mark is Mark.TENSE,
        }
        if marked and chance > 0.9:
            payload["instead_of"] = rng.choice([*marked, "never arrived"])
    device = rng.choice(["phone", "tablet"])
    # the counters of two devices have nothing to do with each other
    number = n if device == "phone" else rng.randint(1, 2 * n)
    return Event(f"e{n:05}", kind, device, number, COACH, drill, payload)


def server(versions: list[Chart], lessons: list[Lesson], rng: random.Random) -> list[Any]:
    """What the server's fold says after each event, checked against its fold of a shuffle."""
    told: list[Any] = []
    known, first = {chart.id: chart for chart in versions}, versions[0].id
    walk: Walk | None = None
    for day, _, _, coach, events in lessons:
        for event in effective(events, DRILL, coach):
            walk = fold_lesson(known.__getitem__, first, walk, day, [event]).walk
            assert walk is not None
            told.append([walk.to_json(), suggestion(known[walk.chart], walk).to_json()])
    shuffled = [(*lesson[:4], rng.sample(lesson[4], len(lesson[4]))) for lesson in lessons]
    rng.shuffle(shuffled)
    assert fold_history(known.__getitem__, first, DRILL, shuffled) == walk
    return told


def compare(count: int, seed: int = 1) -> tuple[int, int]:
    """Compare so many histories; returns (states compared, histories that disagree)."""
    subprocess.run(
        ["npx", "vite", "build", "--config", "vite.cli.config.ts", "--logLevel", "error"],
        cwd=FRONTEND,
        check=True,
    )
    rng = random.Random(seed)
    ways = [[chart] for chart in charts()] + (changed_ladders() + after_first()) * 2
    phone = subprocess.Popen(
        ["node", ".cli/walk.cli.js"],
        cwd=FRONTEND,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert phone.stdin and phone.stdout
    for chart in {chart.id: chart for way in ways for chart in way}.values():
        phone.stdin.write(json.dumps({"chart": chart.to_json()}) + "\n")
    states = disagree = 0
    for batch in _batches(count):
        expected, lines = [], []
        for _ in range(batch):
            way = rng.choice(ways)
            lessons = history(way, rng)
            expected.append(server(way, lessons, rng))
            ask = [
                {"coach": coach, "day": day, "events": [e.sent() for e in events]}
                for day, _, _, coach, events in lessons
            ]
            asked = {"chart": way[0].id, "drill": DRILL, "lessons": ask}
            lines.append(json.dumps(asked) + "\n")
        writer = threading.Thread(target=_write, args=(phone.stdin, lines))
        writer.start()
        for told in expected:
            states += len(told)
            heard = json.loads(phone.stdout.readline())
            disagree += heard != json.loads(json.dumps(told))
        writer.join()
    phone.stdin.close()
    phone.wait(timeout=30)
    phone.stdout.close()
    return states, disagree


def _write(pipe: IO[str], lines: list[str]) -> None:
    pipe.writelines(lines)
    pipe.flush()


def _batches(count: int) -> Iterator[int]:
    for start in range(0, count, BATCH):
        yield min(BATCH, count - start)


def main() -> None:
    """Print the count, the time and the verdict."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    begun = time.perf_counter()
    states, disagree = compare(count)
    took = time.perf_counter() - begun
    print(f"{count} histories, {states} states: {disagree} disagreements, {took:.0f} s")
    sys.exit(disagree > 0)


if __name__ == "__main__":
    main()
