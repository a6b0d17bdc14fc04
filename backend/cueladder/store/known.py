"""What a batch of events may refer to, read in a few queries, and the checks against it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from sqlalchemy import Column, Select, bindparam, select
from sqlalchemy.orm import Session

from ..rules import RuleError, check_version
from ..rules.chart import meaning
from ..rules.said import say
from .among import among, listed
from .charts import chart_of
from .event_fields import sortable
from .event_schemas import Why
from .fold import GIVEN, mark_of
from .models import Coach, DrillVersion, Event, Fencer, Lesson

# All that bears on whether a cue, or a rung set by hand, can be.
_TOLD = ("type", "drill", "chart", "place", "given", "mark", "tense")
# A second person may observe a coach's lesson: mark, take back, note. No more.
OBSERVED = ("cue_marked", "mark_voided", "note_written")


def _of_club(key: Column[str], *columns: Column[Any]) -> Select[Any]:
    """The columns of the club's rows whose key is among the ids."""
    return select(*columns).where(key.table.c.club_id == bindparam("club"), among(key, "ids"))


_event, _lesson, _version = Event.__table__.c, Lesson.__table__.c, DrillVersion.__table__.c
_EVENTS = _of_club(
    _event.id, _event.id, _event.type, _event.lesson_id, _event.coach_id, _event.drill_id
)
_LESSONS = _of_club(
    _lesson.id, _lesson.id, _lesson.fencer_id, _lesson.coach_id, _lesson.day, _lesson.opened_at
)
_FENCERS = _of_club(Fencer.__table__.c.id, Fencer.__table__.c.id)
_CHARTS = _of_club(_version.drill_id, _version.drill_id, _version.version, _version.chart_id)
_ROLES = select(Coach.__table__.c.id, Coach.__table__.c.role).where(
    Coach.__table__.c.club_id == bindparam("club")
)


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


class Stored(NamedTuple):
    """An event that is there already, as far as another may name it."""

    type: str
    lesson: str
    coach: str
    drill: str | None


@dataclass
class Known:
    """What the club has of the things a batch names.

    Attributes:
        stored: events that are stored already, by id.
        lessons: by id.
        fencers: ids.
        charts: for each drill its chart ids, first version first.
        roles: for each coach the role.
    """

    stored: dict[str, Stored] = field(default_factory=dict)
    lessons: dict[str, LessonKey] = field(default_factory=dict)
    fencers: set[str] = field(default_factory=set)
    charts: dict[str, list[str]] = field(default_factory=dict)
    roles: dict[str, str] = field(default_factory=dict)
    _sound: set[tuple[Any, ...]] = field(default_factory=set)

    @classmethod
    def of(cls, session: Session, club_id: int, events: list[Mapping[str, Any]]) -> Known:
        """Look up what well-formed events name, within the club."""
        known = cls()
        ids = {e["id"] for e in events} | {e["mark"] for e in events if e["type"] == "mark_voided"}
        ids |= {e["instead_of"] for e in events if "instead_of" in e}
        for event, *said in _rows(session, _EVENTS, club_id, ids):
            known.stored[event] = Stored(*said)
        for row in _rows(session, _LESSONS, club_id, {e["lesson"] for e in events}):
            known.lessons[row[0]] = LessonKey(*row)
        named = {e["fencer"] for e in events if e["type"] == "lesson_opened"}
        known.fencers = {row[0] for row in _rows(session, _FENCERS, club_id, named)}
        known.learn_drills(session, club_id, {e["drill"] for e in events if e.get("drill")})
        known.roles = {coach: role for coach, role in session.execute(_ROLES, {"club": club_id})}
        return known

    def learn_drills(self, session: Session, club_id: int, drills: Iterable[str]) -> None:
        """Look up the charts of these drills, unless they are known."""
        asked = set(drills) - self.charts.keys()
        for drill, _, chart in sorted(tuple(r) for r in _rows(session, _CHARTS, club_id, asked)):
            self.charts.setdefault(drill, []).append(chart)

    def take(self, event: Mapping[str, Any]) -> None:
        """Take in an event that will be stored."""
        if event["type"] == "lesson_opened":
            self.open(event)
        self.stored[event["id"]] = Stored(
            event["type"], event["lesson"], event["coach"], event.get("drill")
        )

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
            return {"lesson": [say("should be the event's own id, as it opens the lesson")]}
        if event["fencer"] not in self.fencers:
            return {"fencer": [say("unknown fencer: send the fencer first")]}
        if self.roles[event["coach"]] == "observer":
            return {"type": [say("an observer marks in a coach's lesson: ask a coach to open it")]}
        return None

    def why_not(self, event: Mapping[str, Any]) -> Why | None:
        """Why any other event cannot be stored, or None."""
        lesson = self.lessons.get(event["lesson"])
        if lesson is None:
            return {
                "lesson": [say("unknown lesson: send its lesson_opened first, then this again")]
            }
        if event["coach"] != lesson.coach and event["type"] not in OBSERVED:
            return {
                "type": [say("only the lesson's own coach sends this; others mark and write notes")]
            }
        if event.get("drill") is not None and event["drill"] not in self.charts:
            return {"drill": [say("unknown drill: load the club's drills again")]}
        if event["type"] == "mark_voided":
            return self._why_not_voided(event)
        if "chart" in event:
            return self._why_not_walked(event)
        return None

    def _why_not_voided(self, event: Mapping[str, Any]) -> Why | None:
        """A void may come before its mark; what is stored must be a mark of the same lesson."""
        stored = self.stored.get(event["mark"])
        if stored is not None and stored[:2] != ("cue_marked", event["lesson"]):
            return {"mark": [say("is no mark of this lesson: name the id of a cue_marked in it")]}
        return None

    def _why_not_corrected(self, event: Mapping[str, Any]) -> Why | None:
        """A correction may come before its mark; what is stored must be such a mark."""
        stored = self.stored.get(event["instead_of"])
        same = Stored("cue_marked", event["lesson"], event["coach"], event["drill"])
        if event["instead_of"] == event["id"] or (stored is not None and stored != same):
            return {
                "instead_of": [
                    say(
                        "is no mark of this coach on this drill in this lesson: "
                        "name the id of such a cue_marked"
                    )
                ]
            }
        return None

    def _why_not_walked(self, event: Mapping[str, Any]) -> Why | None:
        """An evening has few kinds of cues: what was sound once is not looked at again."""
        told = tuple(map(event.get, _TOLD))
        if told in self._sound:
            return None
        why = self._why_not_cue(event)
        if why is None:
            self._sound.add(told)
        return why

    def _why_not_cue(self, event: Mapping[str, Any]) -> Why | None:
        if event["chart"] not in self.charts[event["drill"]]:
            return _why_no_chart(event["chart"])
        chart = chart_of(event["chart"])
        if event["place"] >= len(chart.places):
            return {"place": [f"should be between 0 and {len(chart.places) - 1}"]}
        if event["type"] != "cue_marked":
            return None
        if "instead_of" in event and (why := self._why_not_corrected(event)):
            return why
        if event["tense"] and event["mark"] != "correct":
            return {"tense": [say("goes with correct only: send false")]}
        try:
            meaning(chart, GIVEN[event["given"]], mark_of(event))
        except RuleError as error:
            return {error.field: [error.message]}
        return None


def _why_no_chart(named: str) -> Why:
    try:
        check_version(named)
    except RuleError as error:
        newer = "newer" in error.message
        return {"chart": ["made by a newer version, update the server" if newer else error.message]}
    return {"chart": [say("is no chart of this drill: load the club's drills again")]}


def _rows(session: Session, statement: Select[Any], club_id: int, ids: set[str]) -> Iterable[Any]:
    if not ids:
        return ()
    return session.connection().execute(statement, {"club": club_id, "ids": listed(ids)}).all()
