"""Write the shared cases: `python -m tests.make_cases`. Run it when the rules change.

Python and TypeScript both replay tests/cases/walk*.json, corrected.json and away.json; a test fails
where one is out of date.
"""

from __future__ import annotations

import json
import random
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from cueladder.rules import Walk, due_by
from tests.corrections import marks_of, told_of
from tests.drills import after_first, changed_ladders, charts
from tests.histories import changed_history, history, replay, told

PATH = Path(__file__).parent / "cases" / "walk.json"
CHANGED = PATH.with_name("walk_changed.json")
CORRECTED = PATH.with_name("corrected.json")
AWAY = PATH.with_name("away.json")
PER_CHART = 4


def make() -> dict[str, Any]:
    """A few histories for each kind under each rule, at a fixed seed."""
    rng = random.Random(20260105)
    cases = []
    for chart in charts():
        for _ in range(PER_CHART):
            ops = history(chart, rng, most=50)
            cases.append({"chart": chart.id, "ops": ops, "told": told(chart, replay(chart, ops))})
    return {"charts": {c.id: c.to_json() for c in charts()}, "cases": cases}


def make_changed() -> dict[str, Any]:
    """Histories in which the drill is changed under way, at a fixed seed."""
    rng = random.Random(20260106)
    cases = []
    ways = [*changed_ladders(), *after_first()]
    for versions in ways:
        for _ in range(PER_CHART):
            ops, said = changed_history(versions, rng)
            cases.append({"chart": versions[0].id, "ops": ops, "told": said})
    every = [chart for versions in ways for chart in versions]
    return {"charts": {c.id: c.to_json() for c in every}, "cases": cases}


def make_corrected() -> list[Any]:
    """Marks, marks taken back and corrections: what stands of them, and the numbers of the cues."""
    rng = random.Random(20260302)
    return [told_of(marks_of(rng)) for _ in range(60)]


def make_away() -> list[Any]:
    """What fencers worked last, on charts of walk.json; whether they are due some day after it."""
    rng = random.Random(20261126)
    cases = []
    for chart in charts() * 2:
        worked = []
        for _ in range(rng.randint(1, 3)):
            walk = rng.choice(replay(chart, history(chart, rng)))
            worked.append({"chart": chart.id, "day": walk.day, "walk": walk.to_json()})
        last = max(one["day"] for one in worked)
        today = date.fromisoformat(last) + timedelta(days=rng.choice([0, 5, 9, 10, 11, 28, 29, 60]))
        until = due_by((chart, Walk.from_json(one["walk"]), one["day"]) for one in worked)
        told = {"until": until, "due": until < today.isoformat()}
        cases.append({"worked": worked, "today": today.isoformat(), "last": last, **told})
    return cases


def main() -> None:
    """Write the files."""
    made = (
        (PATH, make()),
        (CHANGED, make_changed()),
        (CORRECTED, make_corrected()),
        (AWAY, make_away()),
    )
    for path, cases in made:
        path.write_text(json.dumps(cases, ensure_ascii=False, separators=(",", ":")) + "\n")
        print(f"{path.name}: {path.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
