"""Write the shared walk cases: `python -m tests.make_cases`. Run it when the rules change.

Python and TypeScript both replay tests/cases/walk.json; a test fails where it is out of date.
"""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

from tests.drills import charts
from tests.histories import history, replay, told

PATH = Path(__file__).parent / "cases" / "walk.json"
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


def main() -> None:
    """Write the file."""
    PATH.write_text(json.dumps(make(), ensure_ascii=False, separators=(",", ":")) + "\n")
    print(f"{PATH.name}: {PATH.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
