"""In which settings rungs have held, and which places a club teaches at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import func, select

from ...rules import Chart, Walk
from ..db.engine import db
from ..db.models import Lesson, LessonDrill
from .trials import LESSONS, carried

# A club's own short list of places: those of its last lessons, the commonest first.
PLACES, LATELY = 8, 400
# After any day there is.
LAST = "9999-12-31"


@dataclass(frozen=True)
class Setting:
    """Who gave the cues, with which hand, where, ``fresh`` or after ``bouting``; None: not told."""

    giver: str
    hand: str | None
    place: str | None
    state: str | None

    def differs(self, other: Setting) -> bool:
        """Whether it is another setting for sure: what was not told may have been the same."""
        pairs = zip(self._told(), other._told(), strict=True)
        return any(a != b for a, b in pairs if a is not None and b is not None)

    def _told(self) -> tuple[str | None, ...]:
        return self.giver, self.hand, self.place, self.state


@dataclass(frozen=True)
class Held:
    """A later day on which a rung held, and in which setting."""

    day: str
    setting: Setting


def held_at(
    club_id: int, fencer_id: str, drill_id: str, chart: Chart, place: int
) -> tuple[list[Held], bool]:
    """The later days on which a rung has held since it was last met anew, oldest first.

    Args:
        club_id, fencer_id, drill_id: the fencer and drill.
        chart: the drill's present chart; older walks are carried over to it.
        place: the rung, on that chart.

    Returns:
        The days, and whether they are all there are: no more lessons are read than of a season.
    """
    found, holds = _held(club_id, fencer_id, drill_id, chart)
    days = found.get(place, [])
    return days, len(days) >= holds.get(place, 0)


def held_by_rung(
    club_id: int, fencer_id: str, drill_id: str, chart: Chart, until: str = LAST
) -> dict[int, list[Held]]:
    """The same of every rung that has held, by place; as it stood at the end of a day."""
    return _held(club_id, fencer_id, drill_id, chart, until)[0]


def _held(
    club_id: int, fencer_id: str, drill_id: str, chart: Chart, until: str = LAST
) -> tuple[dict[int, list[Held]], dict[int, int]]:
    """The days by place, and how often each rung had held at the end of a day."""
    rows = db.session.execute(
        select(
            LessonDrill.before, LessonDrill.after, Lesson.day, Lesson.coach_id,
            Lesson.giver_id, Lesson.giver_hand, Lesson.place, Lesson.state,
        )
        .join(
            Lesson,
            (Lesson.club_id == LessonDrill.club_id) & (Lesson.id == LessonDrill.lesson_id),
        )
        .where(
            LessonDrill.club_id == club_id,
            LessonDrill.fencer_id == fencer_id,
            LessonDrill.drill_id == drill_id,
            LessonDrill.day <= until,
        )
        .order_by(
            LessonDrill.day.desc(), LessonDrill.opened_at.desc(), LessonDrill.lesson_id.desc()
        )
        .limit(LESSONS)
    ).all()  # fmt: skip
    found: dict[int, list[Held]] = {}
    holds: dict[int, int] = {}
    for row in reversed(rows):
        was = _holds(carried(chart, row.before)) if row.before else {}
        holds = _holds(carried(chart, row.after))
        # what is in training again has to hold anew
        found = {place: days for place, days in found.items() if holds.get(place)}
        coach = row.giver_id or row.coach_id
        here = Held(row.day, Setting(coach, row.giver_hand, row.place, row.state))
        for place, times in holds.items():
            if times > was.get(place, 0):
                found.setdefault(place, []).append(here)
    return found, holds


def settings_of(club_id: int, lessons: Sequence[str]) -> dict[str, Setting]:
    """The setting of each of these lessons."""
    rows = db.session.scalars(
        select(Lesson).where(Lesson.club_id == club_id, Lesson.id.in_(list(lessons)))
    )
    return {
        row.id: Setting(row.giver_id or row.coach_id, row.giver_hand, row.place, row.state)
        for row in rows
    }


def givers_of(club_id: int, lessons: Sequence[str]) -> list[str]:
    """Who gave the cues in each of these lessons, in their order."""
    found = settings_of(club_id, lessons)
    return [found[lesson].giver for lesson in lessons]


def apart(settings: list[Setting]) -> list[Setting]:
    """Settings of which each differs for sure from all others, the first ones first."""
    found: list[Setting] = []
    for each in settings:
        if all(each.differs(other) for other in found):
            found.append(each)
    return found


def places_of(club_id: int, since: str) -> list[str]:
    """The places of a club's lessons since a day, the commonest first."""
    times = func.count()
    return list(
        db.session.scalars(
            select(Lesson.place)
            .where(Lesson.club_id == club_id, Lesson.day >= since, Lesson.place.is_not(None))
            .group_by(Lesson.place)
            .order_by(times.desc(), Lesson.place)
            .limit(PLACES)
        )
    )


def _holds(walk: Walk) -> dict[int, int]:
    return {rung.place: rung.holds for rung in walk.rungs}
