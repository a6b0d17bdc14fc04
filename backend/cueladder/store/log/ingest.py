"""Taking in events: check each on its own, store what is good, fold what it touches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import bindparam, update
from sqlalchemy.orm import Session

from ...rules.said import say
from ..db.among import among, listed
from ..db.engine import now, writing
from ..db.models import Event, HeldLesson, Lesson, LessonDrill, Standing
from ..db.rows import insert_rows, upsert_rows
from .counter import give_out, hold_club
from .events import Log
from .keys import LessonKey
from .known import OUTSIDE, Known
from .outside import fold_outside, why_not_outside
from .refold import refold, standings_of
from .schemas import ENVELOPE, Why, why_each_malformed
from .setting import tell_settings
from .touched import touched

# Closes lessons, by whether they are held until their day is settled.
_CLOSE = {
    held: update(table)
    .where(table.c.club_id == bindparam("club"), among(table.c.id, "ids"))
    .values(closed=True)
    for held, table in ((False, Lesson.__table__), (True, HeldLesson.__table__))
}


@dataclass
class Taken:
    """What became of a batch.

    Attributes:
        results: for each event in the order sent, ``{id, status, why?}``.
        lessons: each lesson × drill that was folded again.
        standings: where the drills touched stand now.
        fencers: of whom something was stored.
        seq: the club's number after the batch.
    """

    results: list[dict[str, Any]] = field(default_factory=list)
    lessons: list[dict[str, Any]] = field(default_factory=list)
    standings: list[dict[str, Any]] = field(default_factory=list)
    fencers: set[str] = field(default_factory=set)
    seq: int = 0


def take_in(club_id: int, events: list[Any], coach_id: str | None = None) -> Taken:
    """Take in a batch in one transaction.

    Args:
        club_id: the club; nothing outside it can be named.
        events: as the device made them; each is judged on its own.
        coach_id: the coach who sends them; None takes any coach of the club (an import, a head
            coach who takes in what another could not send).
    """
    verdicts = why_each_malformed(events)
    good = [event for event, why in zip(events, verdicts, strict=True) if why is None]
    with writing() as session:
        seq = hold_club(session, club_id)
        known = Known.of(session, club_id, good)
        new, status = _judge(known, events, verdicts, coach_id)
        taken = Taken([_result(*each) for each in zip(events, verdicts, status, strict=True)])
        rows = _store(session, club_id, known, new, seq)
        taken.fencers = {row["fencer_id"] for row in rows}
        log = Log(session, club_id, seq, rows)
        taken.seq = _fold(session, log, club_id, known, new, seq + len(rows), taken)
        give_out(session, club_id, taken.seq)
    return taken


def _judge(
    known: Known, events: list[Any], verdicts: list[Why | None], coach_id: str | None
) -> tuple[list[Mapping[str, Any]], list[str]]:
    """Decide each event; what begins a lesson or bout comes first, wherever it stands."""
    status = ["refused"] * len(events)
    seen = set(known.stored)
    new: dict[int, Mapping[str, Any]] = {}
    order = [i for i, why in enumerate(verdicts) if why is None]
    order.sort(key=lambda i: events[i]["lesson"] != events[i]["id"])
    for i in order:
        event = events[i]
        if event["id"] in seen:
            verdicts[i] = known.why_not_the_same(event)
            status[i] = "already" if verdicts[i] is None else "refused"
            continue
        why = _why_not_by(known, event["coach"], coach_id) or _why_not(known, event)
        if why is not None:
            verdicts[i] = why
            continue
        known.take(event)
        status[i] = "stored"
        seen.add(event["id"])
        new[i] = event
    return [new[i] for i in sorted(new)], status


def _why_not(known: Known, event: Mapping[str, Any]) -> Why | None:
    if event["type"] in OUTSIDE:
        return why_not_outside(known, event)
    opens = event["type"] == "lesson_opened"
    return known.why_not_opened(event) if opens else known.why_not(event)


def _why_not_by(known: Known, coach: str, sender: str | None) -> Why | None:
    if sender is not None and coach != sender:
        return {"coach": [say("is not the coach who is signed in: that coach signs in to send it")]}
    if coach not in known.roles:
        return {"coach": [say("unknown coach")]}
    return None


def _result(event: Any, why: Why | None, status: str) -> dict[str, Any]:
    if why is None:
        return {"id": event["id"], "status": status}
    name = event.get("id") if isinstance(event, Mapping) else None
    return {"id": name if isinstance(name, str) else None, "status": status, "why": why}


def _store(
    session: Session, club_id: int, known: Known, new: list[Mapping[str, Any]], seq: int
) -> list[dict[str, Any]]:
    """Insert the new lessons and events; returns the rows of the events."""
    opened = [known.lessons[e["id"]] for e in new if e["type"] == "lesson_opened"]
    for model, held in ((Lesson, False), (HeldLesson, True)):
        given = [_lesson_row(club_id, lesson) for lesson in opened if lesson.held is held]
        insert_rows(session, model.__table__, given)
    received = now()
    rows = [
        _row(club_id, _fencer(known, event), event, seq + k, received)
        for k, event in enumerate(new, start=1)
    ]
    insert_rows(session, Event.__table__, rows)
    closed = {event["lesson"] for event in new if event["type"] == "lesson_closed"}
    for held, close in _CLOSE.items():
        ours = [each for each in closed if known.lessons[each].held is held]
        if ours:
            session.connection().execute(close, {"club": club_id, "ids": listed(ours)})
    tell_settings(session, club_id, known, new)
    fold_outside(session, club_id, known, new)
    return rows


def _lesson_row(club_id: int, lesson: LessonKey) -> dict[str, Any]:
    return {
        "club_id": club_id,
        "id": lesson.id,
        "fencer_id": lesson.fencer,
        "coach_id": lesson.coach,
        "day": lesson.day,
        "opened_at": lesson.opened_at,
        "closed": False,
        # told by an event of its own, if it is
        **dict.fromkeys(("giver_id", "giver_hand", "place", "state")),
    }


def _fencer(known: Known, event: Mapping[str, Any]) -> str:
    hangs_on = known.outside if event["type"] in OUTSIDE else known.lessons
    return hangs_on[event["lesson"]].fencer


def _row(
    club_id: int, fencer: str, event: Mapping[str, Any], seq: int, received: datetime
) -> dict[str, Any]:
    payload = dict(event)
    for name in ENVELOPE:
        del payload[name]
    return {
        "club_id": club_id,
        "id": event["id"],
        "seq": seq,
        "type": event["type"],
        "device_id": event["device"],
        "n": event["n"],
        "at": event["at"],
        "coach_id": event["coach"],
        "lesson_id": event["lesson"],
        "fencer_id": fencer,
        "drill_id": event.get("drill"),
        "payload": payload,
        "received_at": received,
    }


def _fold(
    session: Session,
    log: Log,
    club_id: int,
    known: Known,
    new: list[Mapping[str, Any]],
    seq: int,
    taken: Taken,
) -> int:
    """Fold every drill touched; returns the last number given."""
    walked, standings = [], []
    in_lessons = [event for event in new if event["type"] not in OUTSIDE]
    reached = touched(session, club_id, known, in_lessons)
    known.learn_drills(session, club_id, {drill for _, drill in reached})
    stands = standings_of(session, club_id, reached) if reached else {}
    for (fencer, drill), lessons in reached.items():
        again = refold(
            session,
            log,
            club_id,
            fencer,
            drill,
            known.charts[drill][0],
            lessons.values(),
            stands.get((fencer, drill)),
        )
        walked += again.walked
        taken.lessons += [_lesson_reply(row) for row in again.walked + again.emptied]
        if again.standing is not None:
            seq += 1
            standings.append({**again.standing, "seq": seq})
    upsert_rows(session, LessonDrill.__table__, walked)
    upsert_rows(session, Standing.__table__, standings)
    taken.standings = [standing_reply(row) for row in standings]
    return seq


def _lesson_reply(row: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "lesson": row["lesson_id"],
        "fencer": row["fencer_id"],
        "drill": row["drill_id"],
        "before": row["before"],
        "after": row["after"],
    }


def standing_reply(row: Mapping[str, Any]) -> dict[str, Any]:
    """A standing as the phone gets it."""
    return {
        "fencer": row["fencer_id"],
        "drill": row["drill_id"],
        "walk": row["walk"],
        "suggestion": row["suggestion"],
        "secure": row["secure"],
        "day": row["day"],
        "seq": row["seq"],
    }
