"""Small drills for tests, and random histories over them. Not a test module."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from cueladder.rules import Chart, Drill, compile_chart

FIRST = Path(__file__).parent / "cases" / "first.json"

SCALES: dict[str, Any] = {
    "size": {"family": "read", "grades": ["whole arm", "forearm", "wrist"]},
    "speed": {"family": "read", "grades": ["slow", "half speed", "full speed"]},
    "voice": {"family": "heat", "grades": ["silent", "calling", "shout"]},
    "stamp": {"family": "heat", "grades": ["no stamp", "light stamp"]},
}
READ = [
    {"size": 0, "speed": 0},
    {"size": 1, "speed": 0},
    {"size": 1, "speed": 1},
    {"size": 2, "speed": 1},
    {"size": 2, "speed": 2},
]
HEAT = [{"voice": 0, "stamp": 0}, {"voice": 0, "stamp": 1}, {"voice": 1, "stamp": 1}]
GIVES = {"sensitization": "attacks", "desensitization": "either", "discrimination": "either"}


def document(kind: str = "sensitization", **changes: Any) -> dict[str, Any]:
    """A valid drill document of a kind, with changes."""
    return {
        "slug": f"quarte-{kind}",
        "name": "Parry of quarte",
        "weapon": ["foil"],
        "kind": kind,
        "action": "Parry of quarte with direct riposte",
        "purpose": "Parry late and small.",
        "how": "Extend to the open line.",
        "safety": "Mask, jacket, plastron and glove; an inspected blade.",
        "alone": "Ten small parries in front of a mirror.",
        "scales": SCALES,
        "read": None if kind == "desensitization" else READ,
        "heat": None if kind == "sensitization" else HEAT,
        "gives": GIVES.get(kind, "attacks"),
        "paired": None,
        "rule": {"family": "changepoint", "p0": 0.8, "p1": 0.97, "patience": 2},
        "cap": 40,
        **changes,
    }


def chart_of(kind: str = "sensitization", **changes: Any) -> Chart:
    """The compiled chart of such a drill."""
    return compile_chart(Drill.from_json(document(kind, **changes)))


RULES: list[dict[str, Any]] = [
    {"family": "changepoint", "p0": 0.8, "p1": 0.96, "patience": 3},
    {"family": "changepoint", "p0": 0.6, "p1": 0.9},
    {"family": "changepoint", "goal": 6, "slip": 3, "floor": 4, "patience": 3},
    {"family": "run", "n": 5},
    {"family": "run", "n": 4, "back_in_row": 3, "back_in_last": None},
    {"family": "window", "k": 4, "w": 5},
    {"family": "sequential", "p0": 0.7, "p1": 0.95},
]


def charts() -> list[Chart]:
    """Every kind under every rule."""
    return [chart_of(kind, rule=rule, cap=30) for kind in GIVES for rule in RULES]


def changed_ladders() -> list[list[Chart]]:
    """For each kind its chart, then the same drill with ladders changed in several ways."""
    between = {**SCALES["size"], "grades": ["whole arm", "half an arm", "forearm", "wrist"]}
    easier = {**SCALES["voice"], "grades": ["breath held", *SCALES["voice"]["grades"]]}
    renamed = {**SCALES["speed"], "grades": ["slow", "walking pace", "full speed"]}
    longer = [READ[0], *({**row, "size": row["size"] + 1} for row in READ)]
    louder = [HEAT[0], *({**row, "voice": row["voice"] + 1} for row in HEAT)]
    found = []
    for kind in GIVES:
        reads, heats = kind != "desensitization", kind != "sensitization"
        found.append(
            [
                chart_of(kind),
                chart_of(
                    kind,
                    scales={**SCALES, "size": between, "voice": easier},
                    read=longer if reads else None,
                    heat=louder if heats else None,
                ),
                chart_of(kind, scales={**SCALES, "speed": renamed}),
                chart_of(kind, read=READ[1:4] if reads else None, heat=HEAT[:2] if heats else None),
                chart_of(kind, rule={"family": "run", "n": 5}),
            ]
        )
    return found


def first_charts(kind: str) -> list[Chart]:
    """Charts of version 1 of the same drill of a kind, some with changed ladders."""
    docs = json.loads(FIRST.read_text())["charts"].values()
    return [Chart.from_json(doc) for doc in docs if doc["kind"] == kind]


def after_first() -> list[list[Chart]]:
    """For each kind a drill that had charts of version 1, two ladders of it, and now has others."""
    return [
        [*first_charts(kind)[-2:], *versions[:2]]
        for kind, versions in zip(GIVES, changed_ladders(), strict=True)
    ]
