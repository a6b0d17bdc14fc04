"""Write the shared cases: `python -m tests.make_cases`. Run it when the rules change.

Python and TypeScript both replay tests/cases/walk*.json and corrected.json; a test fails where one
is out of date.
"""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

from tests.corrections import marks_of, told_of
from tests.drills import changed_ladders, charts
from tests.histories import changed_history, history, replay, told

PATH = Path(__file__).parent / "cases" / "walk.json"
CHANGED = PATH.with_name("walk_changed.json")
CORRECTED = PATH.with_name("corrected.json")
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
    for versions in changed_ladders():
        for _ in range(PER_CHART):
            ops, said = changed_history(versions, rng)
            cases.append({"chart": versions[0].id, "ops": ops, "told": said})
    every = [chart for versions in changed_ladders() for chart in versions]
    return {"charts": {c.id: c.to_json() for c in every}, "cases": cases}


def make_corrected() -> list[Any]:
    """Marks, marks taken back and corrections: what stands of them, and the numbers of the cues."""
    rng = random.Random(20260302)
    return [told_of(marks_of(rng)) for _ in range(60)]


def main() -> None:
    """Write the files."""
    made = ((PATH, make()), (CHANGED, make_changed()), (CORRECTED, make_corrected()))
    for path, cases in made:
        path.write_text(json.dumps(cases, ensure_ascii=False, separators=(",", ":")) + "\n")
        print(f"{path.name}: {path.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
