"""One fencer's cues on one drill as arrays, and the walk after each lesson."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import groupby
from typing import Any

import numpy as np
from numpy.typing import NDArray
from sqlalchemy import or_, select

from ...rules import Chart, Mark, Walk, rebase
from ...rules.mark import OUTCOMES
from ..db.engine import db
from ..db.models import Event, Lesson, LessonDrill
from ..log.charts import chart_of
from ..log.fold import GIVEN, effective, mark_of

# Most lessons read: older ones say little, and the cost must not grow with age.
LESSONS = 40
AT_ONCE = 500
MARKS = tuple(Mark)
REMEDIES = (None, "read", "heat")

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Point:
    """The walk at the end of a lesson, carried over to the present chart."""

    lesson: str
    day: str
    walk: Walk
    trials: int


@dataclass(frozen=True)
class Trials:
    """Cues in order; every array has shape (n,), one entry a cue.

    Those of a search for the start are left out: they are given at rungs that were never trained.

    Attributes:
        lessons: ids of the lessons, oldest first; ``days`` their days.
        lesson: index into ``lessons``.
        place: place with the same words on the present chart, or -1 where there is none.
        read, heat: rung on the present ladders, or -1.
        attack: 1 for an attack, 0 for a decoy.
        mark: index of MARKS; ``outcome``: index of OUTCOMES; ``remedy``: index of REMEDIES.
        loud: 1 loud, 0 soft, -1 unknown.
        at: device time in seconds.
        device: index of the device within the lesson.
    """

    lessons: tuple[str, ...]
    days: tuple[str, ...]
    lesson: Ints
    place: Ints
    read: Ints
    heat: Ints
    attack: Ints
    mark: Ints
    outcome: Ints
    remedy: Ints
    loud: Ints
    at: Floats
    device: Ints

    def __len__(self) -> int:
        return int(self.lesson.size)


def points_of(
    club_id: int, fencer_id: str, drill_id: str, chart: Chart, most: int = LESSONS
) -> list[Point]:
    """The last lessons on a drill, oldest first, each with the walk at its end.

    Args:
        club_id, fencer_id, drill_id: the fencer and drill.
        chart: the drill's present chart; older walks are carried over to it.
        most: how many lessons at most.
    """
    rows = db.session.execute(
        select(LessonDrill.lesson_id, LessonDrill.day, LessonDrill.after, LessonDrill.trials)
        .where(
            LessonDrill.club_id == club_id,
            LessonDrill.fencer_id == fencer_id,
            LessonDrill.drill_id == drill_id,
        )
        .order_by(
            LessonDrill.day.desc(), LessonDrill.opened_at.desc(), LessonDrill.lesson_id.desc()
        )
        .limit(most)
    ).all()
    return [
        Point(lesson, day, carried(chart, after), trials)
        for lesson, day, after, trials in reversed(rows)
    ]


def carried(chart: Chart, walk: dict[str, Any]) -> Walk:
    """A stored walk, carried over to the drill's present chart."""
    found = Walk.from_json(walk)
    return found if found.chart == chart.id else rebase(chart_of(found.chart), chart, found)


def trials_of(
    club_id: int, fencer_id: str, drill_id: str, chart: Chart, most: int = LESSONS
) -> Trials:
    """Cues of the last lessons on a drill, marked by the lesson's own coach and not voided.

    Args: as for `points_of`.
    """
    recent = (
        select(LessonDrill.lesson_id)
        .where(
            LessonDrill.club_id == club_id,
            LessonDrill.fencer_id == fencer_id,
            LessonDrill.drill_id == drill_id,
        )
        .order_by(
            LessonDrill.day.desc(), LessonDrill.opened_at.desc(), LessonDrill.lesson_id.desc()
        )
        .limit(most)
    )
    return _trials(club_id, fencer_id, drill_id, chart, list(db.session.scalars(recent)))


def gaps_of(trials: Trials, longest: float = 60.0) -> Floats:
    """Seconds from one cue to the next of the same lesson on the same device.

    Leaves out gaps over ``longest`` seconds (breaks) and non-positive ones (a changed clock).
    """
    same = (np.diff(trials.lesson) == 0) & (np.diff(trials.device) == 0)
    gaps = np.diff(trials.at)[same]
    return np.asarray(gaps[(gaps > 0) & (gaps <= longest)])


def _trials(
    club_id: int, fencer_id: str, drill_id: str, chart: Chart, lesson_ids: list[str]
) -> Trials:
    rows = []
    lessons = []
    places: dict[str, list[tuple[int, int, int]]] = {}
    for k, (key, events) in enumerate(events_by_lesson(club_id, fencer_id, drill_id, lesson_ids)):
        lessons.append(key)
        kept = effective(events, drill_id, events[0].owner)
        devices = {name: i for i, name in enumerate(dict.fromkeys(e.device_id for e in kept))}
        sought = sought_in(kept)
        for event in kept:
            if event.type != "cue_marked" or event.id in sought:
                continue
            said = event.payload
            if said["chart"] not in places:
                places[said["chart"]] = same_words(chart_of(said["chart"]), chart)
            given, mark = GIVEN[said["given"]], mark_of(said)
            cell = chart_of(said["chart"]).meaning[given][mark]
            loud = -1 if said["loud"] is None else int(said["loud"])
            judged = (MARKS.index(mark), OUTCOMES.index(cell.outcome), REMEDIES.index(cell.remedy))
            there = places[said["chart"]][said["place"]]
            when = (_seconds(event.at), devices[event.device_id])
            rows.append((k, *there, int(given == "attack"), *judged, loud, *when))
    columns = np.array(rows, dtype=np.float64).reshape(len(rows), 11).T
    whole = columns.astype(np.int64)
    return Trials(
        tuple(lesson for _, _, lesson in lessons),
        tuple(day for day, _, _ in lessons),
        *whole[:9],
        columns[9],
        whole[10],
    )


def events_by_lesson(
    club_id: int, fencer_id: str, drill_id: str, lesson_ids: list[str]
) -> list[Any]:
    """((day, opened at, lesson), events) by lesson; ``owner`` of an event is the lesson's coach."""
    found: list[Any] = []
    for start in range(0, len(lesson_ids), AT_ONCE):
        found += db.session.execute(
            select(
                Lesson.day, Lesson.opened_at, Event.lesson_id, Lesson.coach_id.label("owner"),
                Event.id, Event.type, Event.device_id, Event.n, Event.coach_id, Event.drill_id,
                Event.at, Event.payload,
            )
            .join(Lesson, (Lesson.club_id == Event.club_id) & (Lesson.id == Event.lesson_id))
            .where(
                Event.club_id == club_id,
                Event.fencer_id == fencer_id,
                Event.lesson_id.in_(lesson_ids[start : start + AT_ONCE]),
                or_(Event.drill_id == drill_id, Event.type == "mark_voided"),
            )
        ).all()  # fmt: skip
    found.sort(key=_order)
    return [(key, list(events)) for key, events in groupby(found, key=_order)]


def _order(event: Any) -> tuple[str, str, str]:
    return (event.day, event.opened_at, event.lesson_id)


def sought_in(events: Iterable[Any]) -> set[str]:
    """Ids of the cues by which a search found the start, among a lesson's events from `effective`.

    A search runs from its ``start_sought`` until it has placed the fencer, or anything but a cue
    on its chart comes between.
    """
    found: set[str] = set()
    state, chart = None, None
    for event in events:
        said = event.payload
        if event.type == "start_sought":
            state, chart = 0, chart_of(said["chart"])
            continue
        if event.type != "cue_marked" or chart is None or said["chart"] != chart.id:
            state, chart = None, None
            continue
        assert state is not None and chart.find is not None
        found.add(event.id)
        cell = chart.meaning[GIVEN[said["given"]]][mark_of(said)]
        state, placed = chart.find.states[state].to[OUTCOMES.index(cell.outcome)]
        if placed:
            state, chart = None, None
    return found


def same_words(old: Chart, new: Chart) -> list[tuple[int, int, int]]:
    """Map a chart's places to (place, read, heat) with the same words on another, or -1."""

    def rung(family: str, k: int | None) -> int | None:
        ladder, was = new.ladders[family], old.ladders[family]
        if ladder is None or was is None or k is None:
            return -1 if ladder is not None else None
        labels = [r["label"] for r in ladder["rungs"]]
        label = was["rungs"][k]["label"]
        return labels.index(label) if label in labels else -1

    there = {(place.read, place.heat): i for i, place in enumerate(new.places)}
    found = []
    for place in old.places:
        read, heat = rung("read", place.read), rung("heat", place.heat)
        found.append(
            (
                there.get((read, heat), -1),
                -1 if read is None else read,
                -1 if heat is None else heat,
            )
        )
    return found


def _seconds(moment: str) -> float:
    when = datetime.fromisoformat(moment)
    when = when if when.tzinfo else when.replace(tzinfo=UTC)
    return (when - datetime(1970, 1, 1, tzinfo=UTC)).total_seconds()
