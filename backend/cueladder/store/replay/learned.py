"""A club's whole log read for what it says of learning: lesson by lesson, and no mark is kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from itertools import groupby
from typing import Any

from sqlalchemy import select

from ...evidence.learning.cells import Cells, Cue, Gathering
from ...rules import Chart, Kind, Mark, Outcome, Walk
from ...rules.settings import REENTRY
from ..db.among import among, listed
from ..db.engine import db
from ..db.models import Event, Lesson, LessonDrill
from ..log.charts import chart_of
from ..log.fold import GIVEN, arrive, effective, fold_lesson, mark_of
from .season import first_charts
from .trials import same_words

AT_ONCE = 60
"""Lessons read at once: all that is in memory of the log."""

ROWS = tuple(days for days, _, _ in REENTRY)


@dataclass
class Gathered:
    """What a club's log comes to, for drills of one kind.

    Attributes:
        cells: the marks.
        checks: for each row of the re-entry table (re-checks begun, held at the first rung tried).
        early, slips: slips to a cue that is to be answered: early or big, and all.
        drills: cues of each drill.
    """

    gathering: Gathering = field(default_factory=Gathering)
    checks: list[list[int]] = field(default_factory=lambda: [[0, 0] for _ in ROWS])
    early: int = 0
    slips: int = 0
    drills: dict[str, int] = field(default_factory=dict)

    @property
    def cells(self) -> Cells:
        """The marks as cells."""
        return self.gathering.cells()


def gathered(club_id: int, charts: dict[str, str]) -> dict[Kind, Gathered]:
    """Read a club's log, fencer by fencer.

    Args:
        club_id: the club.
        charts: present chart of each drill by id; marks on rungs it does not have count as
            practice alone.
    """
    reader = _Reader(club_id, charts)
    fencers = db.session.scalars(
        select(Lesson.fencer_id)
        .where(Lesson.club_id == club_id)
        .distinct()
        .order_by(Lesson.fencer_id)
    ).all()
    for number, fencer in enumerate(fencers):
        for lesson, events in _lessons(club_id, fencer):
            reader.read(number, lesson, events)
    return reader.found


def _lessons(club_id: int, fencer_id: str) -> Iterator[tuple[Any, list[Any]]]:
    """A fencer's lessons, oldest first, each with its events."""
    lessons = db.session.execute(
        select(Lesson.id, Lesson.day, Lesson.coach_id)
        .where(Lesson.club_id == club_id, Lesson.fencer_id == fencer_id)
        .order_by(Lesson.day, Lesson.opened_at, Lesson.id)
    ).all()
    wanted = select(
        Event.lesson_id, Event.id, Event.type, Event.device_id, Event.n, Event.coach_id,
        Event.drill_id, Event.payload,
    ).where(
        Event.club_id == club_id, Event.fencer_id == fencer_id, among(Event.lesson_id, "ids")
    )  # fmt: skip
    for start in range(0, len(lessons), AT_ONCE):
        some = lessons[start : start + AT_ONCE]
        rows = db.session.execute(wanted, {"ids": listed(lesson.id for lesson in some)})
        events = {
            key: list(each) for key, each in groupby(sorted(rows, key=_lesson_of), key=_lesson_of)
        }
        for lesson in some:
            yield lesson, events.get(lesson.id, [])


def _lesson_of(event: Any) -> str:
    return str(event.lesson_id)


class _Reader:
    def __init__(self, club_id: int, charts: dict[str, str]) -> None:
        self.club_id = club_id
        self.charts = charts
        self.first = first_charts(club_id)
        self.found: dict[Kind, Gathered] = {kind: Gathered() for kind in Kind}
        self.heights: dict[tuple[str, str], list[int]] = {}

    def read(self, fencer: int, lesson: Any, events: list[Any]) -> None:
        """One lesson of a fencer."""
        own = [event for event in events if event.coach_id == lesson.coach_id]
        drills = sorted({event.drill_id for event in own if event.type == "cue_marked"})
        if not drills:
            return
        walks = self._walks(lesson.id)
        for drill in drills:
            now = self.charts.get(drill)
            kept = effective(own, drill, lesson.coach_id)
            if now is None or not any(event.type == "cue_marked" for event in kept):
                continue
            chart = chart_of(now)
            into = self.found[chart.kind]
            before, after = walks.get(drill, (None, None))
            climbs = _climbed(chart, before, after, lesson.day)
            cues = [self._cue(into, chart, e) for e in kept if e.type == "cue_marked"]
            into.drills[drill] = into.drills.get(drill, 0) + len(cues)
            into.gathering.add(
                fencer, drill, date.fromisoformat(lesson.day).toordinal(), cues, climbs
            )
            if before is not None and before.day is not None and before.day < lesson.day:
                self._check(into, drill, before, lesson.day, kept)

    def _walks(self, lesson_id: str) -> dict[str, tuple[Walk | None, Walk | None]]:
        rows = db.session.execute(
            select(LessonDrill.drill_id, LessonDrill.before, LessonDrill.after).where(
                LessonDrill.club_id == self.club_id, LessonDrill.lesson_id == lesson_id
            )
        )
        return {
            drill: (Walk.from_json(before) if before else None, Walk.from_json(after))
            for drill, before, after in rows
        }

    def _cue(self, into: Gathered, now: Chart, event: Any) -> Cue:
        said = event.payload
        key = (said["chart"], now.id)
        if key not in self.heights:
            self.heights[key] = [
                now.places[place].height if place >= 0 else -1
                for place, _, _ in same_words(chart_of(said["chart"]), now)
            ]
        mark, given = mark_of(said), GIVEN[said["given"]]
        outcome = chart_of(said["chart"]).meaning[given][mark].outcome
        right = mark in (Mark.CORRECT, Mark.TENSE)
        decoy = said["given"] == "decoy"
        if not right and not decoy:
            into.slips += 1
            into.early += outcome is Outcome.STARTLE
        rung = self.heights[key][said["place"]]
        return rung, decoy and now.kind is Kind.DISCRIMINATION, right, mark is Mark.TENSE

    def _check(self, into: Gathered, drill: str, before: Walk, day: str, kept: list[Any]) -> None:
        """How the first re-check of the lesson came out, if it began with one."""
        walk: Walk | None = arrive(chart_of, self.first[drill], before, day, kept[0])
        if walk is None or walk.phase != "check":
            return
        row = _row(before.day or day, day)
        at = walk.place
        for event in kept:
            if event.type != "cue_marked":
                return
            walk = fold_lesson(chart_of, self.first[drill], walk, day, [event]).walk
            assert walk is not None
            if walk.phase != "check" or walk.place != at:
                into.checks[row][0] += 1
                into.checks[row][1] += walk.why not in ("failed", "cap")
                return


def _row(before: str, day: str) -> int:
    days = (date.fromisoformat(day) - date.fromisoformat(before)).days
    return next(k for k, most in enumerate(ROWS) if most is None or days <= most)


def _climbed(now: Chart, before: Walk | None, after: Walk | None, day: str) -> list[int]:
    """Heights of the rungs first met in a lesson, on the drill's present ladders."""
    if after is None or not after.rungs:
        return []
    known = {rung.place for rung in before.rungs} if before is not None else set()
    new = [rung.place for rung in after.rungs if rung.place not in known and rung.day == day]
    if not new:
        return []
    there = same_words(chart_of(after.chart), now)
    places = [there[place][0] for place in new]
    return [now.places[place].height for place in places if place >= 0]
