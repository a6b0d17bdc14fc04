"""Lessons on a wrong day: those that wait for theirs, moving one to another day, removing one."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from ...rules.said import say
from ..db.engine import db, now, writing
from ..db.models import (
    Change,
    Coach,
    Erasure,
    Event,
    Fencer,
    HeldLesson,
    Lesson,
    LessonDrill,
    Standing,
)
from ..db.rows import upsert_rows
from ..problems import Missing, Refused
from .audit import note
from .counter import give_out, hold_club
from .events import Log
from .fields import is_day, is_id
from .keys import LessonKey
from .known import Known, latest
from .refold import refold, standing_row

# A phone that was away for longer fetches everything anew anyway.
TOLD = timedelta(days=400)

_COLUMNS = (
    "club_id", "id", "fencer_id", "coach_id", "day", "opened_at", "closed",
    "giver_id", "giver_hand", "place", "state",
)  # fmt: skip


def lessons_waiting(club_id: int) -> list[dict[str, Any]]:
    """Lessons of a club that are dated past tomorrow, the newest first."""
    found: list[dict[str, Any]] = []
    for model in (HeldLesson, Lesson):
        wanted = (
            select(model, Fencer.nickname, Coach.name)
            .join(Fencer, (Fencer.club_id == model.club_id) & (Fencer.id == model.fencer_id))
            .join(Coach, (Coach.club_id == model.club_id) & (Coach.id == model.coach_id))
            .where(model.club_id == club_id)
        )
        if model is Lesson:  # dated so before such lessons were held
            wanted = wanted.where(Lesson.day > latest())
        found += [
            {
                "id": lesson.id,
                "fencer": lesson.fencer_id,
                "nickname": nickname,
                "coach": lesson.coach_id,
                "name": name,
                "day": lesson.day,
                "received": _received(lesson),
            }
            for lesson, nickname, name in db.session.execute(wanted)
        ]
    return sorted(found, key=lambda one: (one["received"], one["id"]), reverse=True)


def lessons_removed(club_id: int) -> list[str]:
    """Numbers of lessons that were removed, for phones to forget them too."""
    lately = (Erasure.kind == "lesson", Erasure.erased_at > now() - TOLD)
    return list(db.session.scalars(select(Erasure.id).where(Erasure.club_id == club_id, *lately)))


def move_lesson(club_id: int, lesson_id: str, day: str, coach_id: str) -> None:
    """Say on which day a lesson was given, and fold again what hangs on it.

    Raises:
        Missing: no such lesson in the club.
        Refused: no such day, or one past tomorrow.
    """
    if not is_day(day) or day > latest():
        raise Refused(say("should be a day, tomorrow at the latest"), "day")
    with writing() as session:
        seq = hold_club(session, club_id)
        lesson = _lesson_in(session, club_id, lesson_id)
        was, key = (
            lesson.day,
            LessonKey(lesson.id, lesson.fencer_id, lesson.coach_id, day, lesson.opened_at),
        )
        drills = _take_out(session, lesson)
        if isinstance(lesson, HeldLesson):
            values = {name: getattr(lesson, name) for name in _COLUMNS}
            session.delete(lesson)
            session.add(Lesson(**values | {"day": day}))
        else:
            lesson.day = day
        session.flush()
        seq += 1  # phones fetch its beginning again, and with it the day
        opened = (Event.club_id == club_id, Event.id == lesson_id)
        session.execute(update(Event).where(*opened).values(seq=seq))
        note(session, club_id, key.fencer, coach_id, "lesson moved")
        session.add(
            Change(club_id=club_id, kind="fencer", object_id=key.fencer, field="lesson day",
                   old=was, new=day, coach_id=coach_id)
        )  # fmt: skip
        give_out(session, club_id, _fold_again(session, club_id, key, drills, seq, True))


def remove_lesson(club_id: int, lesson_id: str, coach_id: str | None) -> None:
    """Remove a lesson with everything noted in it, and fold again what came after it.

    Raises:
        Missing: no such lesson in the club.
    """
    with writing() as session:
        seq = hold_club(session, club_id)
        lesson = _lesson_in(session, club_id, lesson_id)
        key = LessonKey(lesson.id, lesson.fencer_id, lesson.coach_id, lesson.day, lesson.opened_at)
        drills = _take_out(session, lesson)
        mine = (Event.club_id == club_id, Event.fencer_id == key.fencer)
        session.execute(delete(Event).where(*mine, Event.lesson_id == lesson_id))
        session.delete(lesson)
        session.flush()
        session.add(Erasure(club_id=club_id, id=lesson_id, kind="lesson"))
        note(session, club_id, key.fencer, coach_id, "lesson removed")
        give_out(session, club_id, _fold_again(session, club_id, key, drills, seq, False))


def _lesson_in(session: Session, club_id: int, lesson_id: str) -> Lesson | HeldLesson:
    for model in (Lesson, HeldLesson) if is_id(lesson_id) else ():
        lesson = session.get(model, (club_id, lesson_id))
        if lesson is not None:
            return lesson
    raise Missing(say("No such lesson in this club."))


def _take_out(session: Session, lesson: Lesson | HeldLesson) -> set[str]:
    """Take a lesson out of the folds; returns the drills that were worked in it."""
    mine = (LessonDrill.club_id == lesson.club_id, LessonDrill.lesson_id == lesson.id)
    drills = set(session.scalars(select(LessonDrill.drill_id).where(*mine)))
    session.execute(delete(LessonDrill).where(*mine))
    if isinstance(lesson, HeldLesson):
        noted = (Event.club_id == lesson.club_id, Event.fencer_id == lesson.fencer_id)
        named = select(Event.drill_id).where(*noted, Event.lesson_id == lesson.id)
        drills |= set(session.scalars(named.where(Event.drill_id.is_not(None)).distinct()))
    return drills


def _fold_again(
    session: Session, club_id: int, key: LessonKey, drills: set[str], seq: int, given: bool
) -> int:
    """Fold the drills of a lesson again: it is where it is ``given`` now, or nowhere.

    Returns:
        The last number given out.
    """
    known = Known()
    known.learn_drills(session, club_id, drills)
    log = Log(session, club_id, seq, [])
    walked, standings = [], []
    for drill in sorted(drills):
        lessons = _lessons_with(session, club_id, key.fencer, drill)
        first = known.charts[drill][0]
        if given:
            lessons.append(key)
        if lessons:
            again = refold(session, log, club_id, key.fencer, drill, first, lessons, None, True)
            walked += again.walked
            standing = again.standing
        else:
            standing = standing_row(club_id, key.fencer, drill, first, None)
        seq += 1
        standings.append({**(standing or {}), "seq": seq})
    upsert_rows(session, LessonDrill.__table__, walked)
    upsert_rows(session, Standing.__table__, standings)
    return seq


def _lessons_with(session: Session, club_id: int, fencer_id: str, drill_id: str) -> list[LessonKey]:
    """The fencer's lessons in which the drill was worked."""
    wanted = (
        select(Lesson)
        .join(
            LessonDrill,
            (LessonDrill.club_id == Lesson.club_id) & (LessonDrill.lesson_id == Lesson.id),
        )
        .where(
            LessonDrill.club_id == club_id,
            LessonDrill.fencer_id == fencer_id,
            LessonDrill.drill_id == drill_id,
        )
    )
    return [
        LessonKey(one.id, one.fencer_id, one.coach_id, one.day, one.opened_at)
        for one in session.scalars(wanted)
    ]


def _received(lesson: Lesson | HeldLesson) -> str:
    mine = (Event.club_id == lesson.club_id, Event.id == lesson.id)
    at = db.session.scalar(select(Event.received_at).where(*mine))
    return at.isoformat() if at else ""
