"""The phone's walk against the server's fold: `make agree`, or `python -m tests.agree 5000`.

Random histories (lessons with breaks, marks, voids, late corrections, rungs by hand, rests) go
through the phone's own code under Node and through the server's fold. Every state, move and
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
from cueladder.store.fold import effective, fold_history, fold_lesson
from tests.drills import charts

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


def history(chart: Chart, rng: random.Random) -> list[Lesson]:
    """One to four lessons on one drill."""
    day, n, lessons = date(2026, 1, 5), 0, []
    for k in range(rng.randint(1, 4)):
        skill = rng.choice([0.5, 0.8, 0.93, 1.0])
        events: list[Event] = []
        for _ in range(rng.randint(1, 16)):
            n += 1
            events.append(_event(chart, rng, n, skill, events))
        rng.shuffle(events)
        opened = f"{day.isoformat()}T17:00:00.000Z"
        lessons.append((day.isoformat(), opened, f"{k:04}", COACH, events))
        day += timedelta(days=rng.choice([0, 1, 7, 10, 11, 28, 29, 90, 91, 200]))
    return lessons


def _event(chart: Chart, rng: random.Random, n: int, skill: float, before: list[Event]) -> Event:
    marked = [e.id for e in before if e.type == "cue_marked"]
    chance = rng.random()
    kind, drill, payload = "cue_marked", DRILL, {}
    if chance < 0.05 and marked:
        kind, drill, payload = "mark_voided", None, {"mark": rng.choice(marked)}
    elif chance < 0.07:
        kind, payload = "rung_set", {"chart": chart.id, "place": rng.randrange(len(chart.places))}
    elif chance < 0.08:
        kind = "drill_rested"
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


def server(chart: Chart, lessons: list[Lesson], rng: random.Random) -> list[Any]:
    """What the server's fold says after each event, checked against its fold of a shuffle."""
    told: list[Any] = []
    walk: Walk | None = None
    for day, _, _, coach, events in lessons:
        for event in effective(events, DRILL, coach):
            walk = fold_lesson(lambda _: chart, chart.id, walk, day, [event]).walk
            assert walk is not None
            told.append([walk.to_json(), suggestion(chart, walk).to_json()])
    shuffled = [(*lesson[:4], rng.sample(lesson[4], len(lesson[4]))) for lesson in lessons]
    rng.shuffle(shuffled)
    assert fold_history(lambda _: chart, chart.id, DRILL, shuffled) == walk
    return told


def compare(count: int, seed: int = 1) -> tuple[int, int]:
    """Compare so many histories; returns (states compared, histories that disagree)."""
    subprocess.run(
        ["npx", "vite", "build", "--config", "vite.cli.config.ts", "--logLevel", "error"],
        cwd=FRONTEND,
        check=True,
    )
    rng, known = random.Random(seed), charts()
    phone = subprocess.Popen(
        ["node", ".cli/walk.cli.js"],
        cwd=FRONTEND,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert phone.stdin and phone.stdout
    for chart in known:
        phone.stdin.write(json.dumps({"chart": chart.to_json()}) + "\n")
    states = disagree = 0
    for batch in _batches(count):
        expected, lines = [], []
        for _ in range(batch):
            chart = rng.choice(known)
            lessons = history(chart, rng)
            expected.append(server(chart, lessons, rng))
            ask = [
                {"coach": coach, "day": day, "events": [e.sent() for e in events]}
                for day, _, _, coach, events in lessons
            ]
            asked = {"chart": chart.id, "drill": DRILL, "lessons": ask}
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
