"""A season of made-up lessons, pushed through the API as a phone would. Not a test module."""

from __future__ import annotations

import random
from datetime import date, datetime, timedelta, timezone
from typing import Any

from cueladder.rules import Given, Mark, Walk, enter, fresh, step
from cueladder.store.drills.library import library
from cueladder.store.drills.versions import add_drill
from cueladder.store.log.charts import chart_of

SLUGS = (
    "foil-quarte-late",
    "foil-quarte-or-feint",
    "parry-through-noise",
    "sixte-late",
    "steady-distance-under-charge",
    "circular-sixte",
    "riposte-choice",
)
ZONE = timezone(timedelta(hours=1))


def drills_for(club: Any, slugs: tuple[str, ...] = SLUGS) -> list[tuple[str, str]]:
    """Add starter drills; returns (drill id, chart id) of each."""
    documents = {document["slug"]: document for document in library()}
    added = [add_drill(club.id, documents[slug])[0] for slug in slugs]
    return [(drill.id, version.chart_id) for drill, version in added]


def lessons(
    club: Any,
    drills: list[tuple[str, str]],
    days: list[date],
    seed: int = 7,
    each: int = 3,
    cues: int = 22,
    right: float | None = None,
) -> list[str]:
    """Give a lesson on each day, ``each`` drills in turn; returns the lessons' ids.

    Args:
        club, drills: whose, and from `drills_for`.
        days: one lesson each.
        seed: of the chance.
        each, cues: drills in a lesson, cues of each.
        right: chance of a right answer; else it grows with practice and falls up the ladder.
    """
    rng = random.Random(seed)
    walks: dict[str, Walk] = {}
    given: dict[str, int] = {}
    phone = club.phone()
    ids = []
    for k, day in enumerate(days):
        clock = datetime(day.year, day.month, day.day, 18, 20, tzinfo=ZONE)
        events = [phone.open(day.isoformat(), at=clock.isoformat())]
        ids.append(phone.lesson)
        for j in range(each):
            drill, chart_id = drills[(k * each + j) % len(drills)]
            chart = chart_of(chart_id)
            walk = enter(chart, walks.get(drill, fresh(chart)), day.isoformat())
            for _ in range(cues):
                clock += timedelta(seconds=rng.uniform(6, 14))
                kind = rng.choice(list(chart.meaning))
                soft = chart.kind == "discrimination" and rng.random() < 0.5
                practice = given.get(drill, 0)
                height = chart.places[walk.place].height
                chance = right or min(0.985, 0.95 + 0.0015 * practice - 0.03 * height)
                mark = Mark.CORRECT
                if rng.random() > chance:
                    mark = rng.choice([m for m in chart.meaning[kind] if m is not Mark.CORRECT])
                events.append(
                    phone.cue(
                        mark.value.split("+")[0],
                        tense=mark is Mark.TENSE,
                        given=Given(kind).value,
                        drill=drill,
                        chart=chart_id,
                        place=walk.place,
                        loud=not soft if chart.kind == "discrimination" else None,
                        at=clock.isoformat(timespec="milliseconds"),
                    )
                )
                given[drill] = practice + 1
                walk = step(chart, walk, kind, mark)
                if walk.why == "done":
                    break
            walks[drill] = walk
        events.append(phone.event("lesson_closed", at=clock.isoformat()))
        club.browser.push(*events)
    return ids


def weekly(count: int, last: date) -> list[date]:
    """So many days a week apart, up to the last."""
    return [last - timedelta(days=7 * k) for k in reversed(range(count))]
