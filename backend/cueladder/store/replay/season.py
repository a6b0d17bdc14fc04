"""Reads for the club overview; their cost grows with the weeks shown, not with the club's age."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from sqlalchemy import or_, select

from ...rules import Walk
from ..db.among import among, listed
from ..db.engine import db
from ..db.models import (
    Booking,
    Coach,
    Drill,
    DrillVersion,
    Event,
    Fencer,
    Lesson,
    LessonDrill,
    Standing,
)


@dataclass(frozen=True)
class Taught:
    """One drill in one lesson; ``before`` and ``after`` are walks as data."""

    lesson: str
    drill: str
    fencer: str
    coach: str
    day: str
    opened_at: str
    before: dict[str, Any] | None
    after: dict[str, Any]
    trials: int


@dataclass(frozen=True)
class OtherEvent:
    """An event other than the coach's own cues: the end of a lesson, or an observer's mark."""

    lesson: str
    type: str
    drill: str | None
    coach: str
    at: str


def fencers_now(club_id: int) -> dict[str, str]:
    """Nicknames of the fencers who are not archived, by id, sorted by name."""
    rows = db.session.execute(
        select(Fencer.id, Fencer.nickname)
        .where(Fencer.club_id == club_id, Fencer.archived.is_(False))
        .order_by(Fencer.nickname, Fencer.id)
    )
    return {fencer: name for fencer, name in rows}


def coach_names(club_id: int) -> dict[str, str]:
    """Names of all coaches, present and past, by id."""
    rows = db.session.execute(select(Coach.id, Coach.name).where(Coach.club_id == club_id))
    return {coach: name for coach, name in rows}


def drills_now(club_id: int) -> dict[str, DrillVersion]:
    """Present versions of drills that are not archived, by id."""
    same = (DrillVersion.drill_id == Drill.id) & (DrillVersion.version == Drill.version)
    rows = db.session.scalars(
        select(DrillVersion)
        .join(Drill, (Drill.club_id == DrillVersion.club_id) & same)
        .where(Drill.club_id == club_id, Drill.archived.is_(False))
    )
    return {version.drill_id: version for version in rows}


def first_charts(club_id: int) -> dict[str, str]:
    """The chart of each drill's first version."""
    rows = db.session.execute(
        select(DrillVersion.drill_id, DrillVersion.chart_id)
        .where(DrillVersion.club_id == club_id)
        .order_by(DrillVersion.version.desc())
    )
    return {drill: chart for drill, chart in rows}


def standings_of(club_id: int) -> list[tuple[str, str, dict[str, Any], str]]:
    """(fencer, drill, walk, day) of every drill that was worked."""
    rows = db.session.execute(
        select(Standing.fencer_id, Standing.drill_id, Standing.walk, Standing.day)
        .where(Standing.club_id == club_id, Standing.day.is_not(None))
        .order_by(Standing.fencer_id, Standing.drill_id)
    )
    return [(fencer, drill, walk, day) for fencer, drill, walk, day in rows if day]


def next_bookings(club_id: int, day: str) -> dict[str, tuple[str, str]]:
    """For each fencer the first planned lesson on or after a day: (day, time)."""
    rows = db.session.execute(
        select(Booking.fencer_id, Booking.day, Booking.at)
        .where(Booking.club_id == club_id, Booking.day >= day)
        .order_by(Booking.day.desc(), Booking.at.desc())
    )
    return {fencer: (on, at) for fencer, on, at in rows}


def lessons_between(club_id: int, first: str, last: str) -> list[Lesson]:
    """Lessons from one day to another, both included, oldest first."""
    return list(
        db.session.scalars(
            select(Lesson)
            .where(Lesson.club_id == club_id, Lesson.day >= first, Lesson.day <= last)
            .order_by(Lesson.day, Lesson.opened_at, Lesson.id)
        )
    )


def taught_between(club_id: int, first: str, last: str) -> list[Taught]:
    """Drills worked from one day to another, both included, oldest first."""
    rows = db.session.execute(
        select(
            LessonDrill.lesson_id, LessonDrill.drill_id, Lesson.fencer_id, Lesson.coach_id,
            Lesson.day, Lesson.opened_at, LessonDrill.before, LessonDrill.after,
            LessonDrill.trials,
        )
        .join(
            Lesson,
            (Lesson.club_id == LessonDrill.club_id) & (Lesson.id == LessonDrill.lesson_id),
        )
        .where(Lesson.club_id == club_id, Lesson.day >= first, Lesson.day <= last)
        .order_by(Lesson.day, Lesson.opened_at, Lesson.id, LessonDrill.drill_id)
    )  # fmt: skip
    return [Taught(*row) for row in rows]


def other_events_between(club_id: int, first: str, last: str) -> list[OtherEvent]:
    """Ends of lessons and observers' marks."""
    rows = db.session.execute(
        select(Event.lesson_id, Event.type, Event.drill_id, Event.coach_id, Event.at)
        .join(
            Lesson,
            (Lesson.club_id == Event.club_id)
            & (Lesson.fencer_id == Event.fencer_id)
            & (Lesson.id == Event.lesson_id),
        )
        .where(
            Lesson.club_id == club_id,
            Lesson.day >= first,
            Lesson.day <= last,
            or_(
                Event.type == "lesson_closed",
                (Event.type == "cue_marked") & (Event.coach_id != Lesson.coach_id),
            ),
        )
    )
    return [OtherEvent(*row) for row in rows]


def events_of(club_id: int, lessons: Iterable[str], drills: Iterable[str]) -> dict[str, list[Any]]:
    """Events of some lessons on some drills, by lesson, as `store.log.fold` reads them."""
    wanted = (
        select(
            Event.lesson_id, Event.id, Event.type, Event.device_id, Event.n, Event.coach_id,
            Event.drill_id, Event.payload,
        )
        .join(
            Lesson,
            (Lesson.club_id == Event.club_id)
            & (Lesson.fencer_id == Event.fencer_id)
            & (Lesson.id == Event.lesson_id),
        )
        .where(
            Lesson.club_id == club_id,
            among(Lesson.id, "ids"),
            or_(among(Event.drill_id, "drills"), Event.type == "mark_voided"),
        )
        .order_by(Event.lesson_id)
    )  # fmt: skip
    asked = {"ids": listed(set(lessons)), "drills": listed(set(drills))}
    rows = db.session.execute(wanted, asked)
    return {lesson: list(some) for lesson, some in groupby(rows, lambda row: row.lesson_id)}


def walk_of(walk: dict[str, Any] | None) -> Walk | None:
    """A stored walk, or None."""
    return None if walk is None else Walk.from_json(walk)
