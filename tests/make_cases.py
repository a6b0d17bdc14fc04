"""Write the shared cases: `python -m tests.make_cases`. Run it when the rules change.

Python and TypeScript both replay tests/cases/walk.json and corrected.json; a test fails where one
is out of date.
"""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

from tests.corrections import marks_of, told_of
from tests.drills import charts
from tests.histories import history, replay, told

PATH = Path(__file__).parent / "cases" / "walk.json"
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


def make_corrected() -> list[Any]:
    """Marks, marks taken back and corrections: what stands of them, and the numbers of the cues."""
    rng = random.Random(20260302)
    return [told_of(marks_of(rng)) for _ in range(60)]


def main() -> None:
    """Write the files."""
    for path, cases in ((PATH, make()), (CORRECTED, make_corrected())):
        path.write_text(json.dumps(cases, ensure_ascii=False, separators=(",", ":")) + "\n")
        print(f"{path.name}: {path.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
