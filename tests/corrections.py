"""Random marks with slips and late corrections, as data both languages read. Not a test module."""

from __future__ import annotations

import random
from dataclasses import dataclass
from typing import Any

from cueladder.store.log.corrected import numbers_of
from cueladder.store.log.fold import effective, in_lesson

DRILL, COACH = "drill", "coach"


@dataclass(frozen=True)
class Noted:
    """An event as the fold reads it."""

    id: str
    type: str
    device_id: str
    n: int
    coach_id: str
    drill_id: str | None
    payload: dict[str, Any]

    @classmethod
    def of(cls, sent: dict[str, Any]) -> Noted:
        """From the form in which a device has it."""
        drill = sent.get("drill")
        return cls(sent["id"], sent["type"], sent["device"], sent["n"], sent["coach"], drill, sent)


def marks_of(rng: random.Random, most: int = 12) -> list[dict[str, Any]]:
    """Events on two devices of one coach, in no order; some name marks that are not there."""
    events: list[dict[str, Any]] = []
    for k in range(rng.randint(1, most)):
        id_ = f"m{k:02}"
        device = rng.choice("ab")
        event = {"id": id_, "device": device, "n": rng.randint(1, 30), "coach": COACH}
        marks = [each["id"] for each in events if each["type"] == "cue_marked"]
        chance = rng.random()
        if marks and chance < 0.15:
            acts = [each["id"] for each in events if "drill" in each]
            event |= {"type": "mark_voided", "mark": rng.choice(acts)}
        elif chance < 0.2:
            kind = rng.choice(["rung_set", "drill_rested", "start_sought", "stop_called"])
            event |= {"type": kind, "drill": DRILL}
        else:
            event |= {"type": "cue_marked", "drill": rng.choice([DRILL] * 7 + ["another drill"])}
            if marks and chance < 0.6:
                event["instead_of"] = rng.choice([*marks, "not here"])
        events.append(event)
    rng.shuffle(events)
    return events


def told_of(events: list[dict[str, Any]]) -> dict[str, Any]:
    """What both languages must say of them: ids of what stands in order, and the numbers."""
    noted = [Noted.of(event) for event in events]
    kept = [event.id for event in effective(noted, DRILL, COACH)]
    bearing = [e for e in noted if e.type == "mark_voided" or e.drill_id == DRILL]
    return {
        "events": events,
        "kept": kept,
        "numbers": numbers_of(sorted(bearing, key=in_lesson)),
    }
