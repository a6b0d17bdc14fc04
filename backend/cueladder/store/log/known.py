"""What a batch of events may refer to, read in a few queries, and the checks against it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any

from sqlalchemy import Column, Select, bindparam, select
from sqlalchemy.orm import Session

from ...rules import Chart, RuleError, check_version
from ...rules.chart import meaning
from ...rules.said import say
from ..db.among import among, listed
from ..db.engine import now
from ..db.models import (
    Bout,
    DrillVersion,
    Erasure,
    Event,
    Fencer,
    HeldLesson,
    Lesson,
    PartnerSet,
)
from .charts import chart_of
from .fields import sortable
from .fold import GIVEN, WALKED, mark_of
from .keys import LessonKey, OutsideKey, Stored
from .roles import Roles
from .schemas import Why

# All that bears on whether a cue, or a rung set by hand, can be.
_TOLD = ("type", "drill", "chart", "place", "given", "mark", "tense")
# A second person may observe a coach's lesson: mark, take back, note. No more.
OBSERVED = ("cue_marked", "mark_voided", "note_written")
# What stands outside lessons: the event that tells of it, the one that takes it back, its record.
TOLD_OF = {
    "bout_watched": ("bout_voided", Bout),
    "partner_marked": ("partner_voided", PartnerSet),
}
OUTSIDE = tuple(kind for told, (voided, _) in TOLD_OF.items() for kind in (told, voided))


def _of_club(key: Column[str], *columns: Column[Any]) -> Select[Any]:
    """The columns of the club's rows whose key is among the ids."""
    return select(*columns).where(key.table.c.club_id == bindparam("club"), among(key, "ids"))


def _lessons(model: type[Any]) -> Select[Any]:
    its = model.__table__.c
    return _of_club(its.id, its.id, its.fencer_id, its.coach_id, its.day, its.opened_at)


_event, _version = Event.__table__.c, DrillVersion.__table__.c
_EVENTS = _of_club(
    _event.id, _event.id, _event.type, _event.lesson_id, _event.coach_id, _event.drill_id,
    _event.device_id, _event.n, _event.at, _event.payload,
)  # fmt: skip
_LESSONS, _HELD = _lessons(Lesson), _lessons(HeldLesson)
_TOLD_ROWS = {
    told: _of_club(its.id, its.id, its.fencer_id, its.coach_id)
    for told, its in ((told, model.__table__.c) for told, (_, model) in TOLD_OF.items())
}
_FENCERS = _of_club(Fencer.__table__.c.id, Fencer.__table__.c.id)
_ERASED = _of_club(Erasure.__table__.c.id, Erasure.__table__.c.id)
_CHARTS = _of_club(_version.drill_id, _version.drill_id, _version.version, _version.chart_id)


@dataclass
class Known:
    """What the club has of the things a batch names.

    Attributes:
        stored: events that are stored already, by id.
        sent: the same as they were sent.
        lessons: by id.
        outside: bouts and sets given by partners, by id.
        fencers: ids.
        erased: ids of fencers and lessons that were erased, and stay so.
        charts: for each drill its chart ids, first version first.
        roles: of each coach of the club.
    """

    stored: dict[str, Stored] = field(default_factory=dict)
    sent: dict[str, Mapping[str, Any]] = field(default_factory=dict)
    lessons: dict[str, LessonKey] = field(default_factory=dict)
    outside: dict[str, OutsideKey] = field(default_factory=dict)
    fencers: set[str] = field(default_factory=set)
    erased: set[str] = field(default_factory=set)
    charts: dict[str, list[str]] = field(default_factory=dict)
    roles: Roles = field(default_factory=Roles)
    _sound: set[tuple[Any, ...]] = field(default_factory=set)

    @classmethod
    def of(cls, session: Session, club_id: int, events: list[Mapping[str, Any]]) -> Known:
        """Look up what well-formed events name, within the club."""
        known = cls()
        ids = {e["id"] for e in events} | {e["mark"] for e in events if e["type"] == "mark_voided"}
        ids |= {e["instead_of"] for e in events if "instead_of" in e}
        for event, *said in _rows(session, _EVENTS, club_id, ids):
            known.stored[event] = Stored(*said[:4])
            known.sent[event] = _as_sent(event, *said)
        lessons = {e["lesson"] for e in events}
        for row in _rows(session, _LESSONS, club_id, lessons):
            known.lessons[row[0]] = LessonKey(*row)
        for row in _rows(session, _HELD, club_id, lessons - known.lessons.keys()):
            known.lessons[row[0]] = LessonKey(*row, held=True)
        outside = {e["lesson"] for e in events if e["type"] in OUTSIDE}
        for told, wanted in _TOLD_ROWS.items():
            for row in _rows(session, wanted, club_id, outside):
                known.outside[row[0]] = OutsideKey(*row, told)
        named = {e["fencer"] for e in events if "fencer" in e}
        known.fencers = {row[0] for row in _rows(session, _FENCERS, club_id, named)}
        gone = (named - known.fencers) | ({e["lesson"] for e in events} - known.lessons.keys())
        known.erased = {row[0] for row in _rows(session, _ERASED, club_id, gone)}
        known.learn_drills(session, club_id, {e["drill"] for e in events if e.get("drill")})
        known.roles = Roles.of(session, club_id)
        return known

    def why_not_the_same(self, event: Mapping[str, Any]) -> Why | None:
        """Why an event is not the one that is stored under its id, or None where it is."""
        other = self.sent[event["id"]]
        differ = [name for name in {*event, *other} if event.get(name) != other.get(name)]
        if not differ:
            return None
        return {"id": [say("same id, other content: the one that came first is kept")]}

    def learn_drills(self, session: Session, club_id: int, drills: Iterable[str]) -> None:
        """Look up the charts of these drills, unless they are known."""
        asked = set(drills) - self.charts.keys()
        for drill, _, chart in sorted(tuple(r) for r in _rows(session, _CHARTS, club_id, asked)):
            self.charts.setdefault(drill, []).append(chart)

    def take(self, event: Mapping[str, Any]) -> None:
        """Take in an event that will be stored."""
        if event["type"] == "lesson_opened":
            self.open(event)
        elif event["type"] in TOLD_OF and event["lesson"] == event["id"]:
            told = (event["id"], event["fencer"], event["coach"], event["type"])
            self.outside[event["id"]] = OutsideKey(*told)
        self.stored[event["id"]] = Stored.of(event)
        self.sent[event["id"]] = event

    def open(self, event: Mapping[str, Any]) -> LessonKey:
        """Take in a new lesson."""
        day = event["day"]
        lesson = LessonKey(
            event["id"], event["fencer"], event["coach"], day, sortable(event["at"]), day > latest()
        )
        self.lessons[lesson.id] = lesson
        return lesson

    def why_not_opened(self, event: Mapping[str, Any]) -> Why | None:
        """Why a ``lesson_opened`` cannot be stored, or None."""
        if event["lesson"] in self.erased:
            return _why_removed()
        if event["lesson"] != event["id"]:
            return {"lesson": [say("should be the event's own id, as it opens the lesson")]}
        if event["fencer"] in self.erased:
            return {"fencer": [say("was erased: nothing more is kept about this fencer")]}
        if event["fencer"] not in self.fencers:
            return {"fencer": [say("unknown fencer: send the fencer first")]}
        if self.roles.at(event["coach"], event["at"]) == "observer":
            return {"type": [say("an observer marks in a coach's lesson: ask a coach to open it")]}
        return None

    def why_not(self, event: Mapping[str, Any]) -> Why | None:
        """Why any other event cannot be stored, or None."""
        lesson = self.lessons.get(event["lesson"])
        if event["lesson"] in self.erased:
            return _why_removed()
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
        if event["type"] == "setting_told" and event["giver"] not in self.roles:
            return {"giver": [say("unknown coach: load the club again, then choose the giver")]}
        if event["type"] == "mark_voided":
            return self._why_not_voided(event)
        if "chart" in event:
            return self._why_not_walked(event)
        return None

    def _why_not_voided(self, event: Mapping[str, Any]) -> Why | None:
        """A void may come before what it takes back; what is stored must be of the same lesson."""
        stored = self.stored.get(event["mark"])
        if stored is None or (stored.type in WALKED and stored.lesson == event["lesson"]):
            return None
        return {
            "mark": [
                say(
                    "cannot be taken back: name the id of a mark, a rung set, a search begun or a"
                    " drill left, in this lesson"
                )
            ]
        }

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
            return why_no_chart(event["chart"])
        chart = chart_of(event["chart"])
        if event["type"] == "start_sought" and chart.find is None:
            return {"chart": [say("this drill has no search for the start: set the rung")]}
        if event["type"] == "stop_called" and chart.ladders["heat"] is None:
            return {"chart": [say("this drill has no intensity to stop: stop the drill for today")]}
        if why := why_no_place(chart, event.get("place", 0)):
            return why
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


def latest() -> str:
    """The last day that a lesson may be dated: tomorrow here, which it is elsewhere already."""
    return (now().astimezone().date() + timedelta(days=1)).isoformat()


def _as_sent(
    event: str,
    kind: str,
    lesson: str,
    coach: str,
    drill: str | None,
    device: str,
    n: int,
    at: str,
    payload: Mapping[str, Any],
) -> dict[str, Any]:
    named = {"id": event, "type": kind, "device": device, "n": n, "at": at, "coach": coach}
    return {**payload, **named, "lesson": lesson}


def _why_removed() -> Why:
    return {"lesson": [say("was removed by a head coach: nothing more is kept of it")]}


def why_no_place(chart: Chart, place: int) -> Why | None:
    """Why a place is none of the chart's, or None."""
    most = len(chart.places) - 1
    return {"place": [say("should be between 0 and %(most)s", most=most)]} if place > most else None


def why_no_chart(named: str) -> Why:
    """Why a chart that is none of the drill's cannot be named."""
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
