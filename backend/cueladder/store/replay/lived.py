"""Replay of one lesson, step by step."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import select

from ...rules import Mark, Outcome, Walk
from ...rules.said import say
from ..db.engine import db
from ..db.models import DrillVersion, Event, Lesson, LessonDrill
from ..log.charts import chart_of
from ..log.corrected import numbers_of
from ..log.fields import is_id
from ..log.fold import GIVEN, arrive, effective, fold_lesson, in_lesson, mark_of
from ..problems import Missing
from .trials import events_by_lesson


@dataclass(frozen=True)
class Step:
    """An event of a lesson that moved the walk.

    Attributes:
        type: ``cue_marked``, ``rung_set``, ``drill_rested``, ``stop_called`` or
            ``start_sought``.
        chart: chart it was judged by.
        place: place of the cue, as the phone showed it; of a rung set by hand the new place; else
            None.
        attack, mark, loud: of a cue, else None.
        outcome: what the mark did to its counter, or None.
        number: of a cue, its number in the lesson's drill as the coach's screen counted; else None.
        phase: ``find``, ``train``, ``check`` or ``close``, when it came.
        after: the walk after it.
    """

    type: str
    chart: str
    place: int | None
    attack: bool | None
    mark: Mark | None
    loud: bool | None
    outcome: Outcome | None
    number: int | None
    phase: str
    after: Walk


@dataclass(frozen=True)
class Seen:
    """An observer's mark.

    Attributes:
        number: the cue's number on the coach's screen; None from a phone that did not count.
        mark: the mark.
    """

    number: int | None
    mark: Mark


@dataclass(frozen=True)
class Lived:
    """The replay of one drill of one lesson.

    Attributes:
        steps: what the lesson's own coach did, in order.
        others: the marks of each observer, in order.
    """

    steps: tuple[Step, ...]
    others: dict[str, tuple[Seen, ...]]


def lived(club_id: int, lesson: Lesson, drill_id: str) -> Lived:
    """Replay one drill of a lesson from the walk before it."""
    row = db.session.get(LessonDrill, (club_id, lesson.id, drill_id))
    first = db.session.scalar(
        select(DrillVersion.chart_id)
        .where(DrillVersion.club_id == club_id, DrillVersion.drill_id == drill_id)
        .order_by(DrillVersion.version)
        .limit(1)
    )
    found = events_by_lesson(club_id, lesson.fencer_id, drill_id, [lesson.id])
    if row is None or first is None or not found:
        return Lived((), {})
    events = found[0][1]
    walk = Walk.from_json(row.before) if row.before else None
    steps = walked(events, drill_id, lesson.coach_id, first, walk, lesson.day)
    coaches = {event.coach_id for event in events} - {lesson.coach_id}
    others = {coach: seen_by(events, drill_id, coach) for coach in sorted(coaches)}
    return Lived(steps, {coach: marks for coach, marks in others.items() if marks})


def walked(
    events: list[Any], drill_id: str, coach_id: str, first: str, walk: Walk | None, day: str
) -> tuple[Step, ...]:
    """Replay one coach's events on a drill in a lesson.

    Args:
        events: of the lesson.
        drill_id, coach_id: the drill, and the coach whose marks count.
        first: chart of the drill's first version.
        walk: the walk before the lesson, or None.
        day: ISO day of the lesson.
    """
    numbers = numbers_of(_in_order(events, drill_id, coach_id))
    steps = []
    for event in effective(events, drill_id, coach_id):
        walk = arrive(chart_of, first, walk, day, event)
        phase = walk.phase
        # entering again on the same day changes nothing, so one event at a time is the same fold
        walk = fold_lesson(chart_of, first, walk, day, [event]).walk
        assert walk is not None
        steps.append(_step(event, numbers.get(event.id), phase, walk))
    return tuple(steps)


def _in_order(events: list[Any], drill_id: str, coach_id: str) -> list[Any]:
    """One coach's events on the drill, and voided marks."""
    own = (
        event
        for event in events
        if event.coach_id == coach_id
        and (event.type == "mark_voided" or event.drill_id == drill_id)
    )
    return sorted(own, key=in_lesson)


def _step(event: Any, number: int | None, phase: str, walk: Walk) -> Step:
    said = event.payload
    if event.type != "cue_marked":
        place = said.get("place")
        return Step(event.type, walk.chart, place, None, None, None, None, None, phase, walk)
    mark, given = mark_of(said), GIVEN[said["given"]]
    outcome = chart_of(said["chart"]).meaning[given][mark].outcome
    return Step(
        event.type,
        said["chart"],
        said["place"],
        given == "attack",
        mark,
        said["loud"],
        outcome,
        number,
        phase,
        walk,
    )


def seen_by(events: list[Any], drill_id: str, coach_id: str) -> tuple[Seen, ...]:
    """An observer's marks on a drill in a lesson, in order, without voided ones."""
    return tuple(
        Seen(event.payload.get("number"), mark_of(event.payload))
        for event in effective(events, drill_id, coach_id)
        if event.type == "cue_marked"
    )


def next_cues(club_id: int, lesson: Lesson) -> tuple[str | None, dict[str, int]]:
    """The drill a lesson's coach last marked, and the number of the next cue of each drill."""
    events = sorted(
        db.session.scalars(
            select(Event).where(
                Event.club_id == club_id,
                Event.fencer_id == lesson.fencer_id,
                Event.lesson_id == lesson.id,
                Event.coach_id == lesson.coach_id,
                Event.type.in_(("cue_marked", "mark_voided")),
            )
        ),
        key=in_lesson,
    )
    marked = [event.drill_id for event in events if event.type == "cue_marked"]
    return (marked[-1] if marked else None), {
        drill: _next(events, drill, lesson.coach_id) for drill in sorted(set(marked))
    }


def _next(events: list[Any], drill_id: str, coach_id: str) -> int:
    numbers = numbers_of(_in_order(events, drill_id, coach_id))
    standing = effective(events, drill_id, coach_id)
    return 1 + max((numbers.get(event.id, 0) for event in standing), default=0)


def lesson_in(club_id: int, lesson_id: str) -> Lesson:
    """Look up a lesson within the club.

    Raises:
        Missing: no such lesson there.
    """
    lesson = db.session.get(Lesson, (club_id, lesson_id)) if is_id(lesson_id) else None
    if lesson is None:
        raise Missing(say("No such lesson in this club."))
    return lesson
