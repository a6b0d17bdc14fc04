"""What a batch of events may refer to, read in a few queries, and the checks against it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import InstrumentedAttribute, Session

from ..rules import RuleError, check_version
from ..rules.walk import meaning
from .charts import chart_of
from .event_fields import sortable
from .event_schemas import Why
from .fold import GIVEN, mark_of
from .models import Coach, DrillVersion, Event, Fencer, Lesson

# A second person may observe a coach's lesson: mark, take back, note. No more.
OBSERVED = ("cue_marked", "mark_voided", "note_written")
AT_ONCE = 900


@dataclass(frozen=True)
class LessonKey:
    """A lesson: whose, by whom, and its place in the order."""

    id: str
    fencer: str
    coach: str
    day: str
    opened_at: str

    @property
    def order(self) -> tuple[str, str, str]:
        """Lessons are folded in this order."""
        return (self.day, self.opened_at, self.id)


@dataclass
class Known:
    """What the club has of the things a batch names.

    Attributes:
        stored: ids of events that are stored already, with (type, lesson).
        lessons: by id.
        fencers: ids.
        charts: for each drill its chart ids, first version first.
        roles: for each coach the role.
    """

    stored: dict[str, tuple[str, str]] = field(default_factory=dict)
    lessons: dict[str, LessonKey] = field(default_factory=dict)
    fencers: set[str] = field(default_factory=set)
    charts: dict[str, list[str]] = field(default_factory=dict)
    roles: dict[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, session: Session, club_id: int, events: list[Mapping[str, Any]]) -> Known:
        """Look up what well-formed events name, within the club."""
        known = cls()
        ids = {e["id"] for e in events} | {e["mark"] for e in events if e["type"] == "mark_voided"}
        columns = (Event.id, Event.type, Event.lesson_id)
        for row in _rows(session, club_id, columns, Event.id, ids):
            known.stored[row[0]] = (row[1], row[2])
        lesson = (Lesson.id, Lesson.fencer_id, Lesson.coach_id, Lesson.day, Lesson.opened_at)
        for row in _rows(session, club_id, lesson, Lesson.id, {e["lesson"] for e in events}):
            known.lessons[row[0]] = LessonKey(*row)
        named = {e["fencer"] for e in events if e["type"] == "lesson_opened"}
        known.fencers = {r[0] for r in _rows(session, club_id, (Fencer.id,), Fencer.id, named)}
        known.learn_drills(session, club_id, {e["drill"] for e in events if e.get("drill")})
        people = select(Coach.id, Coach.role).where(Coach.club_id == club_id)
        known.roles = {coach: role for coach, role in session.execute(people)}
        return known

    def learn_drills(self, session: Session, club_id: int, drills: Iterable[str]) -> None:
        """Look up the charts of these drills, unless they are known."""
        columns = (DrillVersion.drill_id, DrillVersion.version, DrillVersion.chart_id)
        asked = set(drills) - self.charts.keys()
        for drill, _, chart in sorted(
            tuple(row) for row in _rows(session, club_id, columns, DrillVersion.drill_id, asked)
        ):
            self.charts.setdefault(drill, []).append(chart)

    def open(self, event: Mapping[str, Any]) -> LessonKey:
        """Take in a new lesson."""
        lesson = LessonKey(
            event["id"], event["fencer"], event["coach"], event["day"], sortable(event["at"])
        )
        self.lessons[lesson.id] = lesson
        return lesson

    def why_not_opened(self, event: Mapping[str, Any]) -> Why | None:
        """Why a ``lesson_opened`` cannot be stored, or None."""
        if event["lesson"] != event["id"]:
            return {"lesson": ["should be the event's own id, as it opens the lesson"]}
        if event["fencer"] not in self.fencers:
            return {"fencer": ["unknown fencer: send the fencer first"]}
        if self.roles[event["coach"]] == "observer":
            return {"type": ["an observer marks in a coach's lesson: ask a coach to open it"]}
        return None

    def why_not(self, event: Mapping[str, Any]) -> Why | None:
        """Why any other event cannot be stored, or None."""
        lesson = self.lessons.get(event["lesson"])
        if lesson is None:
            return {"lesson": ["unknown lesson: send its lesson_opened first, then this again"]}
        if event["coach"] != lesson.coach and event["type"] not in OBSERVED:
            return {"type": ["only the lesson's own coach sends this; others mark and write notes"]}
        if event.get("drill") is not None and event["drill"] not in self.charts:
            return {"drill": ["unknown drill: load the club's drills again"]}
        if event["type"] == "mark_voided":
            return self._why_not_voided(event)
        if "chart" in event:
            return self._why_not_walked(event)
        return None

    def _why_not_voided(self, event: Mapping[str, Any]) -> Why | None:
        """A void may come before its mark; what is stored must be a mark of the same lesson."""
        stored = self.stored.get(event["mark"])
        if stored is not None and stored != ("cue_marked", event["lesson"]):
            return {"mark": ["is no mark of this lesson: name the id of a cue_marked in it"]}
        return None

    def _why_not_walked(self, event: Mapping[str, Any]) -> Why | None:
        try:
            check_version(event["chart"])
        except RuleError as error:
            newer = "newer" in error.message
            say = "made by a newer version, update the server" if newer else error.message
            return {"chart": [say]}
        if event["chart"] not in self.charts[event["drill"]]:
            return {"chart": ["is no chart of this drill: load the club's drills again"]}
        chart = chart_of(event["chart"])
        if event["place"] >= len(chart.places):
            return {"place": [f"should be between 0 and {len(chart.places) - 1}"]}
        if event["type"] != "cue_marked":
            return None
        if event["tense"] and event["mark"] != "correct":
            return {"tense": ["goes with correct only: send false"]}
        try:
            meaning(chart, GIVEN[event["given"]], mark_of(event))
        except RuleError as error:
            return {error.field: [error.message]}
        return None


def _rows(
    session: Session,
    club_id: int,
    columns: tuple[InstrumentedAttribute[Any], ...],
    key: InstrumentedAttribute[Any],
    ids: Iterable[str],
) -> Iterator[Any]:
    """Rows of the club whose key is among the ids, asked for a few hundred at a time."""
    wanted = sorted(ids)
    for start in range(0, len(wanted), AT_ONCE):
        some = wanted[start : start + AT_ONCE]
        yield from session.execute(
            select(*columns).where(key.class_.club_id == club_id, key.in_(some))
        )
